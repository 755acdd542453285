"""Tables that prose may call for: the policy as it stands, and a score recomputed step by step."""

from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.evaluation import PROTECTION_TITLES, BracketAssessment, Candidate
from guidegen.presentation.certainty import Cells, stability_insert
from guidegen.presentation.formatting import NO_BREAK, day, finding_text, listed, number, with_unit
from guidegen.presentation.names import READINGS, lower_first
from guidegen.presentation.pieces import Chart, Table, Worksheet
from guidegen.presentation.sizing_tables import Offers, sizing_inserts
from guidegen.presentation.tables import plain_table
from guidegen.records import InstrumentQuantity, Library, Part, PolicyRecord

OF_NO_UNIT = {"price.per_watt": "Price per watt", "efficiency.light": "Efficiency at the light load (2 % of the rating, at least 10 W)"}
"""Titles of findings that no unit lends, since they stand apart or differ from unit to unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class InsertSources:
    """What the inserts are made of, beside the library."""

    titles: Mapping[str, str]
    """Titles of findings by key."""
    limits: tuple[tuple[str, str, str], ...]
    """Title, limit and document of all that was held against a limit."""
    worked: Table | None
    """A score recomputed step by step."""
    stability: tuple[Cells, ...]
    """How sure each bracket's first place is."""
    offers: Offers
    """The ratings that units have."""
    worksheet: Worksheet
    """The sizing worksheet."""


def page_inserts(library: Library, sources: InsertSources) -> dict[str, Table | Chart | Worksheet]:
    """Tables, charts and worksheets by the name that prose uses after ``insert.``."""
    policy = library.policy
    titles = {**sources.titles, **OF_NO_UNIT}
    tables: dict[str, Table | Chart] = {
        "weights": _weights(policy),
        "anchors": _anchors(policy, titles),
        "gates": _gates(policy, titles),
        "tiers": _tiers(policy),
        "choices": _choices(policy),
        "instruments": _instruments(library),
        "limits": plain_table("limits", "Limits", ("Number", "Limit", "Document"), sources.limits),
    }
    tables["worked_score"] = sources.worked or _none_yet(
        "worked-score", "A score, recomputed", "No choice of this edition has a score whose every part is known; often a fresh price is missing.")
    tables["stability"] = stability_insert(sources.stability) or _none_yet(
        "stability", "How sure the first place of each bracket is", "No bracket has two units with a place.")
    return {**tables, **sizing_inserts(library, sources.offers), "worksheet": sources.worksheet}


def _none_yet(identifier: str, caption: str, why: str) -> Table:
    """What stands where a table would, so that a page that calls for it can be published before there is one."""
    return plain_table(identifier, caption, ("None yet",), ((why,),))


def _weights(policy: PolicyRecord) -> Table:
    total = sum(criterion.points for criterion in policy.criteria)
    rows = tuple(
        (c.title, number(c.points, 0), with_unit(100 * c.points / total, "%", 1), c.reason) for c in policy.criteria
    )
    return plain_table("weights", "What counts, and how much", ("Criterion", "Points", "Weight", "Why"), rows)


def _anchors(policy: PolicyRecord, titles: Mapping[str, str]) -> Table:
    rows = tuple(
        (criterion.title, titles.get(part.finding, part.finding), with_unit(100 * part.points / sum(p.points for p in criterion.parts), "%", 0),
         _anchor_words(part), part.reason)
        for criterion in policy.criteria
        for part in criterion.parts
    )
    headings = ("Criterion", "Number", "Share of the criterion", "Worth", "Why these anchors")
    return plain_table("anchors", "What a number is worth, from 0 to 100", headings, rows,
                       note="Between anchors worth runs in a straight line; beyond the outer ones it stays.")


def _anchor_words(part: Part) -> str:
    if part.anchors is None:
        lows = [local.anchors[0].at for local in part.local_anchors]
        highs = [local.anchors[-1].at for local in part.local_anchors]
        return (
            f"100 at {number(min(lows), 3)} to {number(max(lows), 3)}, 0 at {number(min(highs), 3)} to "
            f"{number(max(highs), 3)}, by region and bracket"
        )
    return ", ".join(f"{number(100 * a.worth, 0)} at {number(a.at, 0)}" for a in part.anchors)


def _gates(policy: PolicyRecord, titles: Mapping[str, str]) -> Table:
    rows = tuple(
        (
            gate.title,
            listed(
                (*(lower_first(titles.get(key, key)) for key in gate.findings),
                 *(lower_first(PROTECTION_TITLES[name]) for name in gate.protections)),
            ),
            "held back from choices" if gate.not_tested == "hold_back" else "allowed",
            gate.reason,
        )
        for gate in policy.gates
    )
    return plain_table("gates", "What is never traded", ("Gate", "Looks at", "If not tested", "Why"), rows)


def _tiers(policy: PolicyRecord) -> Table:
    rows = tuple((tier.title, f"from {number(tier.from_score, 0)}") for tier in policy.tiers[:-1])
    last = policy.tiers[-1]
    return plain_table(
        "tiers", "Words for scores", ("Word", "Score"),
        (*rows, (last.title, f"below {number(policy.tiers[-2].from_score, 0)}, or a gate failed")),
    )


def _choices(policy: PolicyRecord) -> Table:
    rows = tuple((choice.title, choice.reason) for choice in policy.choices)
    return plain_table("choices", "How the choices are made", ("Choice", "Rule"), rows)


def _instruments(library: Library) -> Table:
    rows = tuple(
        (
            instrument.kind, READINGS[reading.quantity][0],
            with_unit(reading.gain_pct, "%", 2) if reading.gain_pct else "none",
            *(_in_its_unit(value, reading.quantity) for value in (reading.offset, reading.repeatability, reading.resolution)),
            day(instrument.calibrated),
        )
        for instrument in library.guide.instruments
        for reading in instrument.readings
    )
    headings = ("Instrument", "Reads", "Gain", "Offset", "Repeatability", "Resolution", "Calibrated")
    return plain_table("instruments", "Instruments", headings, rows, note="Gain, offset and repeatability are standard uncertainties (k = 1). What "
                       "gain and offset do, they do to every unit alike.")


def _in_its_unit(value: float, quantity: InstrumentQuantity) -> str:
    return f"{value:g}{NO_BREAK}{READINGS[quantity][1]}".rstrip(NO_BREAK) if value else "none"


def worked_score(one: BracketAssessment) -> Table | None:
    """The score of the first choice whose every part is known, recomputed; nothing where there is none."""
    standings = (chosen.standing for chosen in one.choices if chosen.standing is not None)
    found = next((standing.candidate for standing in standings if standing.candidate.score.complete), None)
    return None if found is None else _worked_score(found)


def _worked_score(one: Candidate) -> Table:
    rows = tuple(
        (
            f"{criterion.title}: {part.title}", finding_text(part.found) if part.found else "not tested",
            number(part.low, 3), number(part.weight, 4), number(100 * part.weight * part.low, 2),
        )
        for criterion in one.score.criteria
        for part in criterion.parts
    )
    total = ("Score", "", "", "1", number(one.score.low, 2))
    return plain_table(
        "worked-score", f"The score of the {one.name}, recomputed",
        ("Number", "Found", "Worth", "Weight", "Points"), (*rows, total),
        note="Points = 100 × weight × worth; the score is their sum.",
    )


