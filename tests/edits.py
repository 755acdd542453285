"""Edits of a small library as an editor makes them, drawn at random: what incremental publication is tried with."""

import random
import re
import shutil
from collections.abc import Callable
from pathlib import Path

Edit = Callable[[Path, random.Random], None]
"""Changes a content folder; leaves it publishable."""
_NUMBER = re.compile(r"(ripple_12v_mv: )([0-9.]+)")


def _units(content: Path) -> list[Path]:
    return sorted((content / "units").iterdir())


def change_a_reading(content: Path, rng: random.Random) -> None:
    """Another ripple at one load point of one session."""
    session = rng.choice(sorted((content / "units").glob("*/2*.yaml")))
    text = session.read_text(encoding="utf-8")
    found = rng.choice(list(_NUMBER.finditer(text)))
    session.write_text(f"{text[:found.start(2)]}{rng.randint(10, 60)}.{rng.randint(1, 9)}{text[found.end(2):]}", encoding="utf-8")


def change_a_price(content: Path, rng: random.Random) -> None:
    """Another price in the last row of one unit."""
    table = content / "prices" / "ie.csv"
    rows = table.read_text(encoding="utf-8").splitlines()
    cells = rows[(place := rng.randrange(1, len(rows)))].split(",")
    cells[2] = f"{float(cells[2]) * rng.choice((0.9, 1.05, 1.1)):.2f}"
    rows[place] = ",".join(cells)
    table.write_text("\n".join(rows) + "\n", encoding="utf-8")


def add_a_price(content: Path, rng: random.Random) -> None:
    """One more row in another shop, for a unit of the guide."""
    unit = rng.choice(_units(content)).name
    with (content / "prices" / "ie.csv").open("a", encoding="utf-8") as table:
        table.write(f"2026-04-02,{unit},{rng.randint(70, 130)}.00,EUR,in_stock,Shop {rng.randint(1, 10**9)},shop,"
                    f"https://shop.example/{unit},false\n")


def change_a_weight(content: Path, rng: random.Random) -> None:
    """Other points for the first criterion."""
    policy = content / "policy.yaml"
    text = policy.read_text(encoding="utf-8")
    policy.write_text(re.sub(r"points: [0-9]+", f"points: {rng.randint(40, 100)}", text, count=1), encoding="utf-8")


def change_the_prose(content: Path, rng: random.Random) -> None:
    """One more sentence on a page."""
    page = content / "pages" / "how-we-test.md"
    page.write_text(page.read_text(encoding="utf-8") + f"\nNote {rng.randint(1, 999)} of {{{{ guide.units }}}} units.\n", encoding="utf-8")


def add_a_unit(content: Path, rng: random.Random) -> None:
    """A unit much like another, under a name of its own."""
    like = rng.choice(_units(content))
    name = f"added-{rng.randint(1, 10**9)}"
    shutil.copytree(like, content / "units" / name)
    record = content / "units" / name / "unit.yaml"
    text = re.sub(r"(?m)^predecessor: .*\n", "", record.read_text(encoding="utf-8"))
    record.write_text(re.sub(r"(?m)^model: .*", f"model: Added {name[6:]}", text), encoding="utf-8")
    for session in (content / "units" / name).glob("2*.yaml"):
        text = session.read_text(encoding="utf-8")
        session.write_text(_NUMBER.sub(lambda m: f"{m[1]}{float(m[2]) + rng.randint(1, 5):.1f}", text), encoding="utf-8")


def remove_a_unit(content: Path, rng: random.Random) -> None:
    """A unit that was added goes again, with its prices."""
    added = [unit for unit in _units(content) if unit.name.startswith("added-")]
    if not added:
        return
    gone = rng.choice(added)
    shutil.rmtree(gone)
    table = content / "prices" / "ie.csv"
    rows = [row for row in table.read_text(encoding="utf-8").splitlines() if f",{gone.name}," not in row]
    table.write_text("\n".join(rows) + "\n", encoding="utf-8")


def correct_something(content: Path, rng: random.Random) -> None:
    """One more correction: of a field that no other edit touches, or in words."""
    unit = rng.choice([unit.name for unit in _units(content) if not unit.name.startswith("added-")])
    depth = re.search(r"depth_mm: ([0-9]+)", (content / "units" / unit / "unit.yaml").read_text(encoding="utf-8"))
    assert depth is not None
    field = rng.choice(("", f", field: size.depth_mm, was: {rng.randint(100, 300)}.5, is: {depth[1]}"))
    with (content / "corrections.yaml").open("a", encoding="utf-8") as file:
        file.write(f'- {{date: 2026-04-0{rng.randint(1, 9)}, words: "Number {rng.randint(1, 999)} was wrong.", unit: {unit}{field}}}\n')


def touch_a_file(content: Path, rng: random.Random) -> None:
    """A file saved again without a change."""
    path = rng.choice(sorted(path for path in content.rglob("*") if path.is_file()))
    path.write_bytes(path.read_bytes())


EDITS: tuple[Edit, ...] = (
    change_a_reading, change_a_price, add_a_price, change_a_weight, change_the_prose, add_a_unit, remove_a_unit,
    correct_something, touch_a_file,
)
"""Every kind of edit."""


def edit(content: Path, rng: random.Random) -> str:
    """One edit at random; its name."""
    chosen = rng.choice(EDITS)
    chosen(content, rng)
    return chosen.__name__
