"""A theme: its folder found, its sheets compiled once.

A theme is a folder with ``sheets/*.html`` (Jinja2), ``style.css`` and whatever scripts its sheets ask for; a sheet that
it lacks is that of the standard theme. Everything that a sheet prints is
escaped; only ``|prose`` and ``|drawing`` let HTML through, for the fields that are documented as HTML or SVG, and
``|linked_data`` for JSON-LD and the data of a worksheet. An unknown name stops the publication.
"""

import re
from pathlib import Path
from traceback import walk_tb

from jinja2 import (
    BaseLoader,
    BytecodeCache,
    ChoiceLoader,
    Environment,
    FileSystemLoader,
    PrefixLoader,
    StrictUndefined,
    TemplateSyntaxError,
    pass_context,
)
from jinja2.bccache import Bucket
from jinja2.runtime import Context
from markupsafe import Markup

import guidegen
from guidegen.errors import Fault, ThemeError, nearest_name
from guidegen.origins import Origin
from guidegen.publication.links import current_from, link_from

STANDARD = "test-sheet"
"""The theme that lends its sheets to others."""
_NAME = re.compile(r"[a-z0-9][a-z0-9-]*")
_UNSAFE_IN_SCRIPT = {"<": "\\u003c", ">": "\\u003e", "&": "\\u0026", "\u2028": "\\u2028", "\u2029": "\\u2029"}


def find_theme(name: str, themes: Path) -> Path:
    """The folder of a theme: beside the content, else packaged, else in the checkout."""
    known = _themes(themes)
    if name not in known:
        nearest = nearest_name(name, tuple(known))
        hint = f"; did you mean {nearest}?" if nearest else ""
        raise ThemeError(f"theme: came {name!r}, expected one of {', '.join(sorted(known))}{hint}")
    return known[name]


def unknown_theme(name: str, themes: Path) -> tuple[Fault, ...]:
    """The fault of a guide that wants a theme which is nowhere, or nothing."""
    known = tuple(sorted(_themes(themes)))
    if name in known:
        return ()
    return (Fault(origin=Origin("guide.yaml", ("theme",)), came=name, expected=f"a theme, one of {', '.join(known)}",
                  nearest=nearest_name(name, known), rule="theme"),)


def _themes(themes: Path) -> dict[str, Path]:
    """The folders of all themes by name: those beside the content before the packaged ones and those of the checkout."""
    package = Path(guidegen.__file__).parent
    places = (package.parent / "themes", package / "themes", themes)
    return {folder.name: folder for place in places if place.is_dir() for folder in sorted(place.iterdir())
            if _NAME.fullmatch(folder.name) and (folder / "sheets" / "base.html").is_file()}


def sheet_folders(folder: Path) -> tuple[Path, ...]:
    """Where a theme's sheets are looked for: in its own folder, and what it lacks in that of the standard theme."""
    own, standard = folder / "sheets", find_theme(STANDARD, folder.parent) / "sheets"
    return (own,) if own == standard else (own, standard)


def _loader(folder: Path) -> BaseLoader:
    """The sheets by their names; ``standard/base.html`` is the standard theme's own, for a sheet that changes only parts of it."""
    folders = sheet_folders(folder)
    return ChoiceLoader([FileSystemLoader(folders), PrefixLoader({"standard": FileSystemLoader(folders[-1])})])


class _Compiled(BytecodeCache):
    """Sheets as they were compiled, by their text: who publishes again in the same process compiles what changed."""

    def __init__(self) -> None:
        self._sheets: dict[str, bytes] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        """The sheet compiled before; Jinja2 asks whether its text is still the same."""
        if bucket.key in self._sheets:
            bucket.bytecode_from_string(self._sheets[bucket.key])

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep a compiled sheet."""
        self._sheets[bucket.key] = bucket.bytecode_to_string()


_COMPILED = _Compiled()
"""Sheets compiled in this process."""


def environment_of(folder: Path) -> Environment:
    """The sheets of a theme, ready to be rendered."""
    environment = Environment(
        loader=_loader(folder), autoescape=True, undefined=StrictUndefined, trim_blocks=True,
        lstrip_blocks=True, keep_trailing_newline=True, auto_reload=False, cache_size=-1, bytecode_cache=_COMPILED)
    environment.filters |= {
        "href": _href, "current": current_from, "public": _public, "prose": Markup, "drawing": Markup, "linked_data": linked_data}
    return environment


def place_of(error: Exception, folder: Path) -> str:
    """Theme, sheet and line of an error; Jinja2 puts the sheets' own lines into the traceback."""
    sheets = sheet_folders(folder)
    lines = [(Path(frame.f_code.co_filename), line) for frame, line in walk_tb(error.__traceback__)
             if Path(frame.f_code.co_filename).parent in sheets]
    if isinstance(error, TemplateSyntaxError) and error.filename:
        lines.append((Path(error.filename), error.lineno))
    if not lines:
        return f"{folder.name}/sheets"
    path, line = lines[-1]
    return f"{path.parent.parent.name}/sheets/{path.name}:{line}"


def linked_data(text: str) -> Markup:
    r"""JSON that may stand in a script element: nothing in it can close the element.

    >>> print(linked_data('{"name": "</script>"}'))
    {"name": "\u003c/script\u003e"}
    """
    for letter, written in _UNSAFE_IN_SCRIPT.items():
        text = text.replace(letter, written)
    return Markup(text)  # noqa: S704 - every letter that HTML could read is written as JSON


@pass_context
def _href(context: Context, address: str) -> str:
    """``{{ link.address|href }}``: the way from the page that is being rendered."""
    return link_from(context["sheet"].address, address, context["site"].public_address)


@pass_context
def _public(context: Context, address: str) -> str:
    """``{{ sheet.address|public }}``: the whole address under which the page is published."""
    whole: str = context["site"].public_address + address
    return whole
