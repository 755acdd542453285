"""The whole run, readable in one look.

content/ -read-> library -assess-> assessment -compose-> publication -publish-> output/
"""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from guidegen.evaluation import Assessment, assess
from guidegen.presentation import compose
from guidegen.publication import Written, publish_edition
from guidegen.records import Library
from guidegen.sources import read_library

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
