"""Libraries of any size, invented from a seed, and the edits after which they are published again."""

import re
import shutil
from datetime import date, timedelta
from pathlib import Path

from tests.invention.__main__ import write_library

ROOT = Path(__file__).parent.parent.parent
KEPT = ("guide.yaml", "policy.yaml", "parts.yaml", "pages", "pictures")
"""What a library takes over from the demo as it is."""


def make_library(folder: Path, units: int) -> Path:
    """A content folder with so many units."""
    content = folder / f"content-{units}"
    content.mkdir(parents=True)
    for name in KEPT:
        source = ROOT / "content" / name
        if source.is_dir():
            shutil.copytree(source, content / name)
        elif source.is_file():
            shutil.copy(source, content / name)
    write_library(content, count=units)
    return content


def new_session(content: Path) -> None:
    """One more bench session: that of the first unit at 230 V and 50 Hz, which are compared, a day after its last, with a little more ripple."""
    unit = min((content / "units").iterdir())
    again = max(one for one in unit.glob("2*.yaml") if "frequency_hz: 50" in one.read_text(encoding="utf-8"))
    day = date.fromisoformat(max(unit.glob("2*.yaml")).stem[:10]) + timedelta(days=1)
    text = again.read_text(encoding="utf-8").replace(f"date: {again.stem[:10]}", f"date: {day}")
    text = re.sub(r"(ripple_12v_mv: )([0-9]+)", lambda found: f"{found[1]}{int(found[2]) + 1}", text)
    (unit / f"{day}.yaml").write_text(text, encoding="utf-8")


def more_ripple(content: Path) -> None:
    """A millivolt more of ripple in the first session."""
    session = min((content / "units").glob("*/2*.yaml"))
    text = session.read_text(encoding="utf-8")
    session.write_text(re.sub(r"(ripple_12v_mv: )([0-9]+)", lambda found: f"{found[1]}{int(found[2]) + 1}", text, count=1), encoding="utf-8")


def new_price(content: Path) -> None:
    """One more price: the last row of the first table again, a euro dearer in a shop of its own."""
    table = min((content / "prices").glob("*.csv"))
    rows = table.read_text(encoding="utf-8").splitlines()
    heading, cells = rows[0].split(","), rows[-1].split(",")
    cells[heading.index("shop")] = "Corner Parts"
    table.write_text("\n".join([*rows, ",".join(cells)]) + "\n", encoding="utf-8")


def new_weights(content: Path) -> None:
    """Another weight for the first criterion."""
    policy = content / "policy.yaml"
    text = policy.read_text(encoding="utf-8")
    policy.write_text(re.sub(r"points: [0-9]+", "points: 61", text, count=1), encoding="utf-8")
