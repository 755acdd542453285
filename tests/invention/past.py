"""``python3 -m tests.invention.past --content DIR``: the demo as it stood at the end of June, to be frozen as an edition."""

import argparse
import shutil
from datetime import date
from pathlib import Path

CONTENT = Path(__file__).parent.parent.parent / "content"
DAY = date(2026, 6, 30)
LATER = {"guide.yaml": (("printing: 3", "printing: 1"), ("date: 2026-11-18", f"date: {DAY.isoformat()}")),
         "units/halmer-quill-650/unit.yaml": (('predecessor: "halmer-quill-650-2022"\n', ""),)}
"""What is otherwise in November than in June, beside units, sessions and prices that came later."""


def write_past(content: Path) -> None:
    """The demo's content without what came after ``DAY``, in a folder that isn't there yet."""
    shutil.copytree(CONTENT, content, ignore=shutil.ignore_patterns("editions", "corrections.yaml"))
    for session in content.glob("units/*/2*.yaml"):
        if date.fromisoformat(session.stem[:10]) > DAY:
            session.unlink()
    for unit in (content / "units").iterdir():
        if not any(unit.glob("2*.yaml")):
            shutil.rmtree(unit)
    for table in (content / "prices").iterdir():
        head, *rows = table.read_text(encoding="utf-8").splitlines(keepends=True)
        table.write_text("".join((head, *(row for row in rows if _known(row, content)))), encoding="utf-8", newline="\n")
    for name, changes in LATER.items():
        text = (content / name).read_text(encoding="utf-8")
        for now, then in changes:
            if now not in text:
                raise ValueError(f"{name} no longer says {now!r}")
            text = text.replace(now, then)
        (content / name).write_text(text, encoding="utf-8", newline="\n")


def _known(row: str, content: Path) -> bool:
    """Whether a price was seen by then, of a unit that was tested by then."""
    day, unit = row.split(",")[:2]
    return date.fromisoformat(day) <= DAY and (content / "units" / unit).is_dir()


def main() -> None:
    """Reads the argument and writes."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--content", type=Path, required=True)
    write_past(parser.parse_args().content)


if __name__ == "__main__":
    main()
