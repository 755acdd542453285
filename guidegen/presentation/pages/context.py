"""What every page is composed from."""

from dataclasses import dataclass, field

from guidegen.errors import Fault
from guidegen.evaluation import Assessment, Corrected
from guidegen.origins import Origin
from guidegen.presentation.addresses import PRINCIPLES_PAGE, page_address
from guidegen.presentation.catalogues import Words
from guidegen.presentation.changes import ToldChanges
from guidegen.presentation.pieces import Fact, Link, Section
from guidegen.presentation.prose import Bindings, Written, headings, inline, sections
from guidegen.presentation.unit_charts import Background
from guidegen.records import Manuscript


@dataclass(frozen=True, slots=True, kw_only=True)
class Context:
    """The evaluated guide, what prose may name, and the faults found while composing."""

    assessment: Assessment
    """The guide."""
    bindings: Bindings
    """Values, tables and charts by name."""
    words: Words
    """Texts of the interface."""
    corrections: tuple[Corrected, ...] = ()
    """Corrections with what they did, the latest first."""
    frozen_as: str = ""
    """Name of the frozen edition that is being made; empty for the current guide."""
    changes: ToldChanges | None = None
    """What changed since the last edition that was kept; nothing where there is none."""
    faults: list[Fault] = field(default_factory=list)
    """Faults in prose, found so far."""
    backgrounds: dict[str, Background] = field(default_factory=dict)
    """What the charts of a bracket's units show behind the unit, by the bracket's identifier, as far as it was asked for."""

    def paragraph(self, text: str, origin: Origin, *, page: str) -> str:
        """A field of a record that holds Markdown, as HTML."""
        return inline(Written(text=text, origin=origin), self.bindings, page=page, faults=self.faults)

    def manuscript(self, identifier: str) -> Manuscript | None:
        """A page of prose, or nothing."""
        return next((m for m in self.assessment.library.manuscripts if m.id == identifier), None)

    def explained(self, page: str, heading: str = "") -> str:
        """Address of a page of prose, or of a heading on it; empty where the content has none, so that no link is dead."""
        manuscript = self.manuscript(page)
        if manuscript is None:
            return ""
        anchor = next((name for name, words in headings(manuscript.body) if words == heading), "")
        return page_address(manuscript) + (f"#{anchor}" if anchor else "")

    def sections(self, manuscript: Manuscript, *, page: str) -> tuple[Section, ...]:
        """The sections of a page of prose."""
        written = Written(text=manuscript.body, origin=Origin(manuscript.file), first_line=manuscript.body_line)
        return sections(written, self.bindings, page=page, faults=self.faults)


def short_title(text: str, guide: str) -> str:
    """A window title of at most 60 characters that ends with the guide's name where there is room."""
    whole = f"{text} – {guide}"
    return whole if len(whole) <= 60 else text[:60]


def short_description(text: str) -> str:
    """At most 160 characters, cut at a word."""
    return text if len(text) <= 160 else text[:159].rsplit(" ", 1)[0] + "…"


def sample_facts(context: Context, units: tuple[str, ...]) -> tuple[Fact, ...]:
    """How many units and samples, how obtained, as the head of a sheet has it."""
    samples = _samples(context, units)
    return (
        Fact(label=context.words.say("facts.tested"), text=f"{len(units)} units, {len(samples)} samples", address=context.explained("how-we-test")),
        Fact(label=context.words.say("facts.samples"), text=_obtained(samples), address=context.explained("how-we-test", "Samples")),
    )


def disclosure_of(context: Context, units: tuple[str, ...]) -> tuple[str, ...]:
    """What a reader should know beside a recommendation: whose the samples are, who pays, conflicts, paid links."""
    said = context.assessment.library.guide.publisher
    return (f"Samples: {_obtained(_samples(context, units))}.", said.funding, said.conflicts, said.paid_links)


def principles_of(context: Context) -> Link | None:
    """The way to the page that says how units are tested, where the content has one."""
    address = context.explained(PRINCIPLES_PAGE)
    return Link(text=context.words.say("page.how_we_test"), address=address, worded=True) if address else None


def _samples(context: Context, units: tuple[str, ...]) -> dict[tuple[str, str], str]:
    """How each sample of some units was obtained."""
    sessions = (session for session in context.assessment.library.sessions if session.unit in units)
    return {(one.unit, one.record.sample.id): one.record.sample.obtained for one in sessions}


def _obtained(samples: dict[tuple[str, str], str]) -> str:
    return ", ".join(
        f"{sum(obtained == how for obtained in samples.values())} {text}"
        for how, text in (("bought", "bought"), ("loaned", "on loan"), ("given", "given by makers"))
        if how in samples.values()
    ) or "none yet"
