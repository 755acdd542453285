"""The table of who may import whom, held."""

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parent.parent / "guidegen"
ROOMS: dict[str, set[str]] = {
    "origins": set(),
    "errors": {"origins"},
    "quantities": set(),
    "rounding": set(),
    "recalling": set(),
    "sharing": {"errors"},
    "records": {"origins", "errors", "quantities"},
    "standards": {"records"},
    "sources": {"origins", "errors", "recalling", "records"},
    "evaluation": {"origins", "errors", "quantities", "recalling", "rounding", "records", "standards"},
    "presentation": {"origins", "errors", "quantities", "rounding", "recalling", "records", "standards", "evaluation"},
    "press": {"origins", "errors", "recalling", "sharing"},
    "preview": {"errors"},
    "publication": {"origins", "errors", "presentation", "press", "sharing"},
    "flow": {"errors", "origins", "recalling", "records", "sources", "evaluation", "presentation", "press", "publication"},
    "intake": {"errors", "flow", "records", "sources", "evaluation"},
    "cli": {"errors", "flow", "intake", "records", "evaluation", "presentation", "press", "preview", "sources"},
    "__main__": {"cli"},
}
FORBIDDEN: dict[str, set[str]] = {
    "origins": {"pandas", "numpy", "yaml", "jinja2", "matplotlib"},
    "records": {"pandas", "numpy", "yaml", "jinja2", "matplotlib"},
    "standards": {"pandas", "yaml", "jinja2", "matplotlib"},
    "sources": {"jinja2", "matplotlib", "numpy", "scipy"},
    "evaluation": {"pandas", "matplotlib", "jinja2", "yaml", "os", "pathlib", "time", "random"},
    "presentation": {"jinja2", "yaml", "os", "pathlib", "time", "random"},
    "press": {"pandas", "numpy", "yaml", "jinja2", "matplotlib", "selectolax"},
    "publication": {"pandas", "yaml", "matplotlib", "numpy"},
    "flow": {"click", "rich", "sys"},
    "cli": {"numpy", "pandas", "matplotlib", "yaml", "jinja2"},
}
MODULES = sorted(PACKAGE.rglob("*.py"))


def room_of(path: Path) -> str:
    """The room that a module belongs to."""
    first = path.relative_to(PACKAGE).parts[0]
    return first.removesuffix(".py")


def imports_of(path: Path) -> list[str]:
    """Every module that a module imports, with its whole name."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    names: list[str] = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            names.append(node.module or "")
    return names


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(PACKAGE)))
def test_a_module_imports_only_what_its_room_may(path: Path) -> None:
    """Arrows between rooms go from left to right, as the table says."""
    room = room_of(path)
    if room == "__init__":
        return
    reached = {name.split(".")[1] for name in imports_of(path) if name.startswith("guidegen.")}

    assert reached - {room} <= ROOMS[room]


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(PACKAGE)))
def test_a_module_touches_no_library_that_its_room_must_not_know(path: Path) -> None:
    """The middle only computes; the ends alone touch files, YAML and templates."""
    used = {name.split(".")[0] for name in imports_of(path)}

    assert not used & FORBIDDEN.get(room_of(path), set())


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(PACKAGE)))
def test_nothing_is_imported_inside_a_function(path: Path) -> None:
    """Imports stand at the top, where the arrows can be seen."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    functions = [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)]
    inside = [n for f in functions for n in ast.walk(f) if isinstance(n, ast.Import | ast.ImportFrom)]

    assert inside == []


def test_pyplot_is_never_used() -> None:
    """Figures are made without pyplot, which keeps state between them."""
    assert [path for path in MODULES if any("pyplot" in name for name in imports_of(path))] == []


def test_every_room_has_a_row_in_the_table() -> None:
    """A new room has to be written into the table."""
    there = {room_of(path) for path in MODULES} - {"__init__", "themes"}

    assert there == set(ROOMS)


def test_the_top_level_holds_only_what_it_should() -> None:
    """The top level stays as short as the README says."""
    allowed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "guidegen", "content", "themes", "tests", "output", "LICENSE"}
    there = {path.name for path in PACKAGE.parent.iterdir() if not path.name.startswith(".")}

    assert there - {"build", "dist"} <= allowed
