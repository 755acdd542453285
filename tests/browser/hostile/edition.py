"""The small edition written anew with other texts in every field that takes free text."""

import csv
import json
import re
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

from guidegen.errors import Fault
from guidegen.origins import Origin
from guidegen.presentation.markdown import Place, set_markdown
from guidegen.records import (
    Accepted,
    Correction,
    GuideRecord,
    Library,
    Override,
    PartsRecord,
    PolicyRecord,
    PriceRow,
    ProtectionTest,
    Provenance,
    SessionRecord,
    Unit,
    UnitPicture,
    UnitRecord,
    Withdrawn,
)
from guidegen.records.corrections import CORRECTIONS
from guidegen.records.library import Manuscript
from guidegen.sources import read_library
from guidegen.sources.tables import COLUMNS
from tests.browser.hostile.slots import PROSE, Field, Take, filled

SMALL = Path(__file__).parents[2] / "small_edition" / "content"
PUBLISHED = (GuideRecord, PolicyRecord, PartsRecord, UnitRecord, SessionRecord, PriceRow, Manuscript, Correction)
"""Kinds of record that a publication is made from."""
TITLES = frozenset({("GuideRecord", "title"), ("Bracket", "title"), ("Manuscript", "title")})
"""Titles of windows, which are cut: the mark comes first, so that no two are alike."""
BODIES = {
    "how-we-test": "## How\n\n" + "\n\n".join(f"{{{{ insert.{name} }}}}" for name in (
        "instruments", "limits", "gates", "anchors", "weights", "worked_score", "stability", "tiers", "choices")),
    "how-many-watts": "## How\n\n" + "\n\n".join(f"{{{{ insert.{name} }}}}" for name in (
        "worksheet", "sizing_matrix", "worked_examples", "example.evening-games", "paper_worksheet", "cautions", "part_classes")),
    "words": "## Ripple\n\n{{ guide.title }} and {{ guide.publisher }} say so.",
    "how-to-choose": "## Watts first\n\nSo much.",
}
"""What stands below the other text on each page of prose, so that every kind of piece is published."""
_NO_PROSE = re.compile(r"\{\{|\n=\n")
"""Names in double braces, which are looked up, and a line that makes the one above a heading."""
PICTURE, DRAWN = "pictures/front.svg", '<svg xmlns="http://www.w3.org/2000/svg" width="40" height="20" viewBox="0 0 40 20"><path d="M0 0h40v20z"/></svg>'
"""A picture of every unit."""
_DAY = re.compile(r'"day:([0-9]{4}-[0-9]{2}-[0-9]{2})"')
_UNSEEN = re.compile(r"[^ -~\u00a1-\u167f\u1681-\u1fff\u3001-\ud7ff\U00010000-\U0001fffd]")


@cache
def out_of_prose(text: str) -> bool:
    """Whether a text can't stand in Markdown as it is: names are looked up, and an address that is not allowed is a fault."""
    return bool(_NO_PROSE.search(text)) or bool(refusals(text))


@cache
def refusals(text: str) -> tuple[str, ...]:
    """What the program objects to where the text stands in prose."""
    faults: list[Fault] = []
    set_markdown(text, Place(origin=Origin("pages/how-we-test.md"), first_line=1, page="how-we-test/", pictures={}), faults)
    return tuple(fault.came for fault in faults)


@dataclass(frozen=True, slots=True)
class Slot:
    """A field of one record with the text that was put there."""

    field: Field
    """Kind of record and field."""
    file: str
    """File of the content."""
    mark: str
    """A word that stands in this text and nowhere else."""
    text: str
    """The text, with the mark at its end."""


@cache
def base() -> Library:
    """The small edition with every optional record that holds free text."""
    library = read_library(SMALL)
    accepted = (
        Accepted(rule="claims-twice", field="claims.protections[6]", reason="It does."),
        Accepted(rule="revision-behind", field="revision", reason="Its texts are all others."),
    )
    units = [with_text(unit, accepted) for unit in library.units]
    gone = units[-1].record
    units.append(Unit(id="wexcombe-cinder-550", file="units/wexcombe-cinder-550/unit.yaml", record=replace(
        gone, model="Cinder 550", accepted=accepted[:1], withdrawn=Withdrawn(on=date(2026, 3, 1), reason="Recalled."))))
    log = Provenance(log="sweep.csv", sha256="0" * 64, mapping="mappings/bench.yaml", rows_used=10, rows_read=12)
    objection = Accepted(rule="mains", field="mains.frequency_hz", reason="A generator.")
    left_out = (ProtectionTest(protection="surge", outcome="not_tested"), ProtectionTest(protection="no_load", outcome="did_not_act"))
    sessions = tuple(replace(one, record=replace(
        one.record, provenance=(log,), accepted=(objection,), mains=replace(one.record.mains, frequency_hz=55.0),
        protections=(*one.record.protections, *left_out),
    )) for one in library.sessions)
    override = Override(bracket="550", choice="first", unit="ostrevant-cairn-550", reason="We like it.")
    wrong = Correction(date=date(2026, 3, 20), words="It was wrong.", unit="ostrevant-cairn-550")
    policy = replace(library.policy, overrides=(override,))
    return replace(library, units=tuple(units), sessions=sessions, policy=policy, corrections=(wrong,))


def with_text(unit: Unit, accepted: tuple[Accepted, ...]) -> Unit:
    """The unit with a claim made twice, which the editor lets stand."""
    claims = replace(unit.record.claims, protections=(*unit.record.claims.protections, "scp"))
    return replace(unit, record=replace(unit.record, claims=claims, accepted=accepted, pictures=(UnitPicture(file=PICTURE, words="Its front."),)))


def slots_of(share: tuple[str, ...]) -> Callable[[Field, str], Slot]:
    """Gives slot after slot, so that the slots of each field together hold every text of the share.

    From texts for Markdown those that it does not take as words are left out.
    """
    counts = _counts()
    used: Counter[Field] = Counter()
    prose = tuple(one for one in share if not out_of_prose(one))

    def next_slot(field: Field, file: str) -> Slot:
        texts = prose if field in PROSE else share
        place, of = used[field], counts[field]
        used[field] += 1
        turned = texts[place % len(texts):] + texts[:place % len(texts)]
        mark = f"q{sum(used.values()):04d}q"
        words = (mark, *turned[::of]) if field in TITLES else (*turned[::of], mark)
        return Slot(field, file, mark, " ".join(words))

    return next_slot


@cache
def _counts() -> Counter[Field]:
    """How many slots each field has."""
    found: Counter[Field] = Counter()

    def count(field: Field, file: str) -> str:
        del file
        found[field] += 1
        return "x"

    _records(count)
    return found


def _records(take: Callable[[Field, str], str]) -> dict[str, Any]:
    """Every file of the content as plain groups and lists, by its name."""
    library = base()
    whole: dict[str, Any] = {"guide.yaml": library.guide, "policy.yaml": library.policy, "parts.yaml": library.parts}
    whole |= {unit.file: unit.record for unit in library.units}
    whole |= {session.file: session.record for session in library.sessions}
    files: dict[str, Any] = {file: filled(record, _in(file, take)) for file, record in whole.items()}
    files[CORRECTIONS] = [filled(one, _in(CORRECTIONS, take)) for one in library.corrections]
    for prices in library.prices:
        files[prices.file] = [filled(row, _in(prices.file, take)) for row in prices.rows]
    for page, body in BODIES.items():
        file = f"pages/{page}.md"
        head = {name: take(("Manuscript", name), file) for name in ("title", "description")}
        files[file] = head | {"body": f"{take(('Manuscript', 'body'), file)}\n\n{body}"}
    return files


def _in(file: str, take: Callable[[Field, str], str]) -> Take:
    return lambda field: take(field, file)


def write(content: Path, slot: Callable[[Field, str], Slot]) -> tuple[Slot, ...]:
    """The content written into a folder; returns every slot with its text."""
    slots: list[Slot] = []
    (content / PICTURE).parent.mkdir(parents=True, exist_ok=True)
    (content / PICTURE).write_text(DRAWN, encoding="utf-8")

    def take(field: Field, file: str) -> str:
        slots.append(slot(field, file))
        return slots[-1].text

    for name, record in _records(take).items():
        path = content / name
        path.parent.mkdir(parents=True, exist_ok=True)
        if path.suffix == ".csv":
            write_table(path, record)
        elif path.suffix == ".md":
            head = f"title: {as_yaml(record['title'])}\ndescription: {as_yaml(record['description'])}\n"
            path.write_text(f"---\n{head}---\n{record['body']}\n", encoding="utf-8", newline="")
        else:
            path.write_text(as_yaml(record), encoding="utf-8")
    return tuple(slots)


def write_table(path: Path, rows: list[dict[str, Any]]) -> None:
    """A price table."""
    with path.open("w", encoding="utf-8", newline="") as stream:
        table = csv.writer(stream)
        table.writerow(COLUMNS)
        for row in rows:
            table.writerow([str(row[name]).lower() if name == "paid_link" else row.get(name, "") for name in COLUMNS])


def as_yaml(value: Any) -> str:
    """The value in YAML's flow style; what can't be seen is written by its number."""
    text = json.dumps(value, ensure_ascii=False, default=lambda day: f"day:{day.isoformat()}", indent=1)
    return _UNSEEN.sub(_escaped, _DAY.sub(r"\1", text)) + "\n"


def _escaped(found: re.Match[str]) -> str:
    code = ord(found[0])
    return found[0] if found[0] == "\n" else f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"
