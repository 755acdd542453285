"""``python3 -m tests.theme_guide``: writes ``themes/README.md``, the list of what a sheet receives, from the descriptions themselves."""

import ast
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parent.parent
GUIDE = ROOT / "themes" / "README.md"
DESCRIPTIONS = ("sheets", "pieces")
LEFT_OUT = {"BinaryFile", "DataFile", "DrawingPlan", "PagePlan", "Publication", "Archived", "ArchivedFile"}
"""What no sheet receives."""
OPENING = """# Themes

A theme is a folder here or beside your content: `sheets/*.html` (Jinja2), `style.css`, and whatever other style sheets and scripts its sheets ask for. `theme:` in `guide.yaml` names it. A sheet that a theme lacks is that of `test-sheet`, so a theme begins with one style and grows as far as its maker likes; and a sheet that begins with `{% extends "standard/bracket.html" %}` changes only the blocks that it names. `plain-paper` is a style and three sheets of a few lines that leave the scripts out; all else it borrows. Copy it, change a line, publish.

No theme needs a change in the program. An unknown name in a sheet stops publication with the sheet and its line, and the last good site stays.

## What every sheet receives

| name | what it is |
| --- | --- |
| `sheet` | the page, by its kind (below); `sheet.kind` is the name of its sheet |
| `site` | what all pages share |
| `words`, `say("name", field=value)` | texts of the interface in the guide's language (`guidegen/presentation/catalogues/`) |
| `texts_of("group", …)` | texts that a script needs, as JSON |
| `lang`, `own`, `lang_of(one)` | a `lang` attribute where the records' language is not that of the interface |
| `assets["style.css"]` | address of a style sheet or script of the theme, with a hash in its name; a folder of scripts is joined to one |
| `feeds` | media type of each feed by its address |

| filter | what it does |
| --- | --- |
| `address\\|href` | the way from this page to an address counted from the root of the site |
| `address\\|public` | the whole address under which the page is published |
| `address\\|current` | the way out of a frozen edition to the same page of the current guide |
| `text\\|prose`, `svg\\|drawing` | lets HTML or SVG through, for fields that are documented as such; all else is escaped |
| `text\\|linked_data` | JSON that may stand in a script element |

The security policy lets no style and no script stand in a page: both come from files of the theme. Without script a page must be complete.
"""


def classes(module: str) -> Iterator[tuple[str, str, list[tuple[str, str]]]]:
    """Each description of a module: its name, what it is, its fields with what they are."""
    tree = ast.parse((ROOT / "guidegen" / "presentation" / f"{module}.py").read_text(encoding="utf-8"))
    for node in tree.body:
        if isinstance(node, ast.ClassDef) and node.name not in LEFT_OUT:
            yield node.name, ast.get_docstring(node) or "", list(_fields(node))


def _fields(node: ast.ClassDef) -> Iterator[tuple[str, str]]:
    for one, after in zip(node.body, [*node.body[1:], None], strict=True):
        if isinstance(one, ast.AnnAssign) and isinstance(one.target, ast.Name):
            told = after.value if isinstance(after, ast.Expr) else None
            yield one.target.id, str(told.value) if isinstance(told, ast.Constant) else ""


def text() -> str:
    """The whole guide."""
    parts = [OPENING]
    titles = {"sheets": "## Pages: `sheet` and `site`", "pieces": "## Pieces of pages"}
    for module in DESCRIPTIONS:
        parts.append(titles[module])
        for name, what, fields in classes(module):
            rows = "\n".join(f"| `{field}` | {' '.join(words.split()).replace('|', chr(92) + '|')} |" for field, words in fields)
            parts.append(f"### {name}\n\n{what.splitlines()[0]}\n\n| field | what it is |\n| --- | --- |\n{rows}")
    return "\n\n".join(parts) + "\n"


if __name__ == "__main__":
    GUIDE.write_text(text(), encoding="utf-8")
