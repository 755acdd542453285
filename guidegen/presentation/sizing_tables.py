"""Sizing in tables: classes against ratings, and whole computers worked out step by step."""

from guidegen.evaluation import (
    CAUTIONS,
    Assessment,
    BuildLoad,
    RatingOnOffer,
    Recommendation,
    build_load,
    field_in,
    load_of,
    recommend_for,
    rule_words,
    sizing_matrix,
    wall_from_delivered,
)
from guidegen.presentation.addresses import bracket_address
from guidegen.presentation.formatting import listed, number, with_unit
from guidegen.presentation.names import lower_first
from guidegen.presentation.pieces import Cell, Chart, Column, Table
from guidegen.presentation.tables import numbered, plain_table, with_numbers
from guidegen.records import Build, Library

COMMON_PARTS = {"board.plain": 1, "memory.module": 2, "drive.nvme": 1, "fan.case": 3, "usb.devices": 1}
"""What the table counts beside processor, graphics card and board."""


Offers = tuple[RatingOnOffer, ...]
"""The ratings that exist in the guide, with what their ablest units can do."""


def sizing_inserts(library: Library, offers: Offers) -> dict[str, Table | Chart]:
    """Tables for the sizing page by name; ``offers`` are the ratings that units have."""
    return {
        "sizing_matrix": matrix_table(library, offers),
        "worked_examples": examples_table(library, offers),
        "part_classes": classes_table(library),
        "cautions": cautions_table(),
        "paper_worksheet": paper_table(library),
        **{f"example.{build.id}": steps_table(library, build) for build in library.parts.examples},
    }


def matrix_table(library: Library, offers: Offers) -> Table:
    """Processor classes by graphics classes: the rating to look for, leading to its bracket."""
    known = {part.id for part in library.parts.classes}
    beside = {name: count for name, count in COMMON_PARTS.items() if name in known}
    matrix = sizing_matrix(library.parts, offers, library.policy.sizing, beside=beside)
    rows = tuple(
        (
            Cell(text=f"{processor.title} ({processor.examples})"),
            *(_rating_cell(library, cell.found) for cell in matrix.cells if cell.processor is processor),
        )
        for processor in matrix.processors
    )
    columns = (
        Column(key="processor", title="Processor"),
        *(Column(key=card.id.replace(".", "-") if card else "none", title=card.title if card else "No graphics card",
                 numeric=True) for card in matrix.graphics),
    )
    ratings = listed(tuple(with_unit(one.rating_w, "W", 0) for one in sorted(offers, key=lambda one: one.rating_w)))
    note = (f"Counted beside them: {listed(tuple(_counted(library, name, n) for name, n in beside.items()))}. Ratings in this guide: {ratings}. "
            "Where a card's short peaks ask for more than the rule, they decide.")
    return Table(id="sizing-table", caption="The rating to look for", columns=columns, rows=rows, note=note)


def _counted(library: Library, name: str, count: int) -> str:
    part = next((part for part in library.parts.classes if part.id == name), None)
    return f"{count} × {lower_first(part.title)}" if part else name


def _rating_cell(library: Library, found: Recommendation) -> Cell:
    if found.rating_w is None:
        return Cell(text="more than any unit here")
    bracket = library.guide.bracket_of(found.rating_w)
    return Cell(
        text=with_unit(found.rating_w, "W", 0), order=number(found.rating_w, 0),
        address=bracket_address(bracket) if bracket else "",
    )


def examples_table(library: Library, offers: Offers) -> Table:
    """Whole computers: their loads, what the plug meter shows, the rating and why."""
    rows = []
    for build in library.parts.examples:
        load = build_load(library.parts, build.parts)
        found = recommend_for(load_of(load), offers, library.policy.sizing)
        wall = wall_from_delivered(load.full_w, library.policy.sizing.assumed_efficiency_pct)
        rows.append(
            (
                Cell(text=f"{build.title}. {build.story}"), Cell(text=_sum_words(load)),
                Cell(text=with_unit(wall, "W", 0)), _rating_cell(library, found), Cell(text=why_words(found, load, library)),
            )
        )
    assumed = with_unit(library.policy.sizing.assumed_efficiency_pct, "%", 0)
    columns = (
        Column(key="computer", title="Computer"), Column(key="sum", title="Full load, delivered"),
        Column(key="wall", title=f"At the plug, at {assumed}", numeric=True), Column(key="rating", title="Rating", numeric=True),
        Column(key="why", title="Why"),
    )
    return Table(
        id="examples", caption="Four computers worked out", columns=columns, rows=tuple(rows),
        note=f"At the plug: the sum divided by an assumed efficiency of {assumed}, since no unit is chosen yet. Where a unit is "
             "named, what was measured on it counts, and the number differs.",
    )


def _sum_words(load: BuildLoad) -> str:
    large = sorted(load.lines, key=lambda line: -line.watts("sustained"))
    named = [line for line in large if line.watts("sustained") >= 20]
    rest = load.full_w - sum(line.watts("sustained") for line in named)
    terms = [f"{number(line.watts('sustained'), 0)} ({lower_first(line.part.title)})" for line in named]
    return f"{' + '.join([*terms, f'{number(rest, 0)} (the rest)'])} = {with_unit(load.full_w, 'W', 0)}"


def why_words(found: Recommendation, load: BuildLoad, library: Library) -> str:
    """Why this rating, in a sentence or two."""
    rule = rule_words(found, load_of(load), library.policy.sizing)
    said = f"{rule[:1].upper()}{rule[1:]}"
    smaller = found.next_smaller_w
    if found.rating_w is None or found.share is None or smaller is None:
        return f"{said}."
    return f"{said}; at {with_unit(smaller, 'W', 0)} full load would be {with_unit(100 * load.full_w / smaller, '%', 0)}."


def steps_table(library: Library, build: Build) -> Table:
    """One computer, line by line."""
    load = build_load(library.parts, build.parts)
    rows = tuple(
        (f"{line.count} × {lower_first(line.part.title)}", number(line.watts("idle"), 0), number(line.watts("sustained"), 0),
         number(line.watts("peak"), 0))
        for line in load.lines
    )
    total = ("Together", number(load.idle_w, 0), number(load.full_w, 0), number(load.peak_w, 0))
    return with_numbers(plain_table(
        f"example-{build.id}", build.title, ("Part", "Idle, W", "Full load, W", "Short peak, W"), (*rows, total),
        note="Short peaks of several parts do not fall together: the total counts the largest one.",
    ))


BLANK = "____"


def paper_table(library: Library) -> Table:
    """The sum for pencil and paper: every class with its watts, and blanks to fill in."""
    rules = library.policy.sizing
    parts = tuple(
        (part.title, BLANK, f"× {with_unit(part.sustained_w, 'W', 0)}", f"= {BLANK} W") for part in library.parts.classes
    )
    sums = (
        ("All of it together: full load", "", "", f"= {BLANK} W"),
        ("Divided by the share to aim at", "", f"÷ {number(rules.target_high_pct / 100, 2)}", f"= {BLANK} W"),
        ("The next rating in the guide", "", "", f"{BLANK} W"),
        ("Full load as a share of that rating", "", f"never above {with_unit(rules.never_above_pct, '%', 0)}", f"{BLANK} %"),
    )
    headings = ("Part", "How many", "Full load of each", "Watts")
    return with_numbers(plain_table("paper-worksheet", "The sum on paper", headings, (*parts, *sums)))


def cautions_table() -> Table:
    """What to know before a screwdriver is picked up."""
    rows = tuple((caution.text, caution.source) for caution in CAUTIONS)
    return plain_table("cautions", "Before you buy and build", ("Caution", "Source"), rows)


def classes_table(library: Library) -> Table:
    """All part classes with their watts; each source stands once beneath, by its number."""
    numbers, sources = numbered(part.source for part in library.parts.classes)
    rows = tuple(
        (
            f"{part.title} ({part.examples})", number(part.idle_w, 0), number(part.typical_w, 0),
            number(part.sustained_w, 0), number(part.peak_w, 0),
            numbers[part.source],
        )
        for part in library.parts.classes
    )
    headings = ("Part", "Idle, W", "Ordinary, W", "Full load, W", "Short peak, W", "Source")
    return with_numbers(plain_table("classes", "Classes of parts", headings, rows, note=f"Sources: {sources}"))


def matrix_of(assessment: Assessment) -> Table:
    """The table of processor and graphics classes in the home region."""
    library = assessment.library
    region = library.guide.home
    return matrix_table(library, field_in(assessment, region).offers())
