"""The whole run, readable in one look.

content/ -read-> library -assess-> assessment -compose-> publication -publish-> output/
logs -read-> readings -divide-> sweeps -session_of-> session -entry_of-> entry -store-> content/units/
"""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from guidegen.evaluation import Assessment, Sweep, Told, assess, divide, session_of
from guidegen.presentation import compose
from guidegen.publication import Written, publish_edition
from guidegen.records import Library
from guidegen.sources import Entry, entry_of, name_of, read_library, read_log, read_mapping, read_unit

Report = Callable[[str], None]
"""Told in a few words what is being done."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """What a publication came to."""

    library: Library
    """What was read."""
    written: Written
    """What was written."""


def quiet(step: str) -> None:
    """Reports nothing."""
    del step


def evaluate_content(content: Path, *, report: Report = quiet) -> Assessment:
    """The evaluated guide; raises ``ContentError`` with every fault of every file."""
    report("reading records")
    library = read_library(content)
    report(f"measuring and ranking {len(library.units)} units")
    return assess(library)


def publish(content: Path, output: Path, *, report: Report = quiet) -> Published:
    """The guide published into ``output``; whatever goes wrong, the last good site stays."""
    assessment = evaluate_content(content, report=report)
    report("composing pages")
    publication = compose(assessment)
    report(f"rendering {len(publication.sheets)} pages")
    theme = assessment.library.guide.theme
    written = publish_edition(publication, theme=theme, themes=content.parent / "themes", output=output)
    return Published(library=assessment.library, written=written)


def proof(content: Path, *, report: Report = quiet) -> Library:
    """The content read, evaluated and composed without writing anything; raises ``ContentError`` with every fault."""
    assessment = evaluate_content(content, report=report)
    report("reading the prose")
    compose(assessment)
    return assessment.library


def read_sweep(content: Path, unit: str, log: Path, mapping: Path, *, report: Report = quiet) -> Sweep:
    """A log read by its mapping and divided into loads; steady or not."""
    rated_power_w = read_unit(content, unit).record.rated_power_w
    rules = read_mapping(mapping, content)
    report(f"reading {log.name}")
    readings = read_log(log, rules, content)
    return Sweep(
        readings=readings, mapping=rules, mapping_file=name_of(mapping, content),
        segments=divide(readings, rules, rated_power_w=rated_power_w),
    )


def draft_session(content: Path, unit: str, sweeps: tuple[Sweep, ...], *, told: Told, suffix: str = "") -> Entry:
    """The session of one or two sweeps as it may be stored; raises ``ContentError`` with every fault, and writes nothing."""
    record = session_of(sweeps, told)
    head = f"{read_unit(content, unit).name}, sample {record.sample.id}, {record.mains.voltage_v:.0f} V; from a log."
    return entry_of(content, unit, record, suffix=suffix, head=head)
