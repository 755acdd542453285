"""Sizing in tables: classes against ratings, and whole computers worked out step by step."""

from guidegen.evaluation import Assessment, BuildLoad, Recommendation, build_load, recommend, wall_from_delivered
from guidegen.presentation.addresses import bracket_address
from guidegen.presentation.formatting import listed, number, with_unit
from guidegen.presentation.names import lower_first
from guidegen.presentation.pieces import Cell, Chart, Column, Table
from guidegen.presentation.tables import plain_table
from guidegen.records import Build, Library

COMMON_PARTS = {"memory.module": 2, "drive.nvme": 1, "fan.case": 3, "usb.devices": 1}
"""What the table counts beside processor, graphics card and board."""


def sizing_inserts(assessment: Assessment) -> dict[str, Table | Chart]:
    """Tables for the sizing page by name."""
    library = assessment.library
    return {
        "sizing_matrix": matrix_table(library),
        "worked_examples": examples_table(library),
        "part_classes": classes_table(library),
        **{f"example.{build.id}": steps_table(library, build) for build in library.parts.examples},
    }


def ratings_of(library: Library) -> tuple[float, ...]:
    """The ratings that exist in the guide, rising, W."""
    return tuple(sorted({u.record.rated_power_w for u in library.units if u.record.withdrawn is None}))


def matrix_table(library: Library) -> Table:
    """Processor classes by graphics classes: the rating to look for, leading to its bracket."""
    processors = [part for part in library.parts.classes if part.kind == "processor"]
    cards = [part for part in library.parts.classes if part.kind == "graphics"]
    rows = []
    for processor in processors:
        cells = [Cell(text=f"{processor.title} ({processor.examples})")]
        for card in (None, *cards):
            wanted = _ordinary(library, processor.id, card.id if card else None)
            load = build_load(library.parts, wanted)
            cells.append(_rating_cell(library, recommend(load.full_w, ratings_of(library), library.policy.sizing)))
        rows.append(tuple(cells))
    columns = (
        Column(key="processor", title="Processor"), Column(key="none", title="No graphics card", numeric=True),
        *(Column(key=card.id.replace(".", "-"), title=card.title, numeric=True) for card in cards),
    )
    note = f"Counted beside them: a board, {listed(tuple(_counted(library, name, n) for name, n in COMMON_PARTS.items()))}."
    return Table(id="sizing-table", caption="The rating to look for", columns=columns, rows=tuple(rows), note=note)


def _ordinary(library: Library, processor: str, card: str | None) -> dict[str, int]:
    known = {part.id for part in library.parts.classes}
    board = "board.rich" if processor in ("processor.high", "processor.top") else "board.plain"
    wanted = {processor: 1, board: 1, **COMMON_PARTS, **({card: 1} if card else {})}
    return {name: count for name, count in wanted.items() if name in known}


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


def examples_table(library: Library) -> Table:
    """Whole computers: their loads, what the plug meter shows, the rating and why."""
    rows = []
    for build in library.parts.examples:
        load = build_load(library.parts, build.parts)
        found = recommend(load.full_w, ratings_of(library), library.policy.sizing)
        wall = wall_from_delivered(load.full_w, library.policy.sizing.assumed_efficiency_pct)
        rows.append(
            (
                Cell(text=f"{build.title}. {build.story}"), Cell(text=_sum_words(load)),
                Cell(text=with_unit(wall, "W", 0)), _rating_cell(library, found), Cell(text=rule_words(found)),
            )
        )
    columns = (
        Column(key="computer", title="Computer"), Column(key="sum", title="Full load, delivered"),
        Column(key="wall", title="At the plug", numeric=True), Column(key="rating", title="Rating", numeric=True),
        Column(key="why", title="Why"),
    )
    return Table(
        id="examples", caption="Four computers worked out", columns=columns, rows=tuple(rows),
        note=f"At the plug: the sum divided by an efficiency of {number(library.policy.sizing.assumed_efficiency_pct, 0)} %.",
    )


def _sum_words(load: BuildLoad) -> str:
    large = sorted(load.lines, key=lambda line: -line.watts("sustained"))
    named = [line for line in large if line.watts("sustained") >= 20]
    rest = load.full_w - sum(line.watts("sustained") for line in named)
    terms = [f"{number(line.watts('sustained'), 0)} ({lower_first(line.part.title)})" for line in named]
    return f"{' + '.join([*terms, f'{number(rest, 0)} (the rest)'])} = {with_unit(load.full_w, 'W', 0)}"


def rule_words(found: Recommendation) -> str:
    """Why this rating, in a sentence."""
    if found.rating_w is None or found.share is None:
        return "No unit in this guide is large enough."
    share = f"{number(100 * found.share, 0)} % of the rating"
    if found.rule == "ceiling":
        return f"Full load is {share}: more than the middle, still below the ceiling; nothing larger is in the guide."
    smaller = found.next_smaller_w
    if smaller is None:
        return f"Full load is {share}; the smallest rating in the guide is enough."
    return f"Full load is {share}; at {with_unit(smaller, 'W', 0)} it would be {number(100 * found.share * found.rating_w / smaller, 0)} %."


def steps_table(library: Library, build: Build) -> Table:
    """One computer, line by line."""
    load = build_load(library.parts, build.parts)
    rows = tuple(
        (f"{line.count} × {lower_first(line.part.title)}", number(line.watts("idle"), 0), number(line.watts("sustained"), 0),
         number(line.watts("peak"), 0))
        for line in load.lines
    )
    total = ("Together", number(load.idle_w, 0), number(load.full_w, 0), number(load.peak_w, 0))
    return plain_table(
        f"example-{build.id}", build.title, ("Part", "Idle, W", "Full load, W", "Short peak, W"), (*rows, total),
        note="Short peaks of several parts do not fall together: the total counts the largest one.",
    )


def classes_table(library: Library) -> Table:
    """All part classes with their watts and source."""
    rows = tuple(
        (
            f"{part.title} ({part.examples})", number(part.idle_w, 0), number(part.typical_w, 0),
            number(part.sustained_w, 0), number(part.peak_w, 0), part.source,
        )
        for part in library.parts.classes
    )
    headings = ("Part", "Idle, W", "Ordinary, W", "Full load, W", "Short peak, W", "Source")
    return plain_table("classes", "Classes of parts", headings, rows)
