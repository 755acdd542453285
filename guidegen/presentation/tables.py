"""Tables of facts: what a unit page and the method page set in rows."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from guidegen.evaluation import UnitResult, Verdict
from guidegen.presentation.catalogues import Words
from guidegen.presentation.formatting import (
    day,
    finding_with_doubt,
    listed,
    number,
    with_unit,
)
from guidegen.presentation.names import (
    BADGES,
    CONNECTORS,
    MAINS_CLASSES,
    OBTAINED,
    OUTCOMES,
    PROTECTION_OUTCOMES,
    PROTECTIONS,
    STANDARDS,
    lower_first,
)
from guidegen.presentation.pieces import Cell, Column, Table
from guidegen.presentation.sample_words import compared_words, other_mains, other_revisions

NOT_TESTED = "not tested"


def plain_table(
    identifier: str, caption: str, headings: tuple[str, ...], rows: tuple[tuple[str, ...], ...], *, note: str = ""
) -> Table:
    """A table of words and printed numbers, in the order given."""
    return Table(
        id=identifier, caption=caption, note=note,
        columns=tuple(Column(key=f"c{i}", title=title) for i, title in enumerate(headings)),
        rows=tuple(tuple(Cell(text=text) for text in row) for row in rows),
    )


def with_numbers(table: Table) -> Table:
    """The table with every column but the first set as numbers."""
    return replace(table, columns=(table.columns[0], *(replace(column, numeric=True) for column in table.columns[1:])))


def numbered(sources: Iterable[str]) -> tuple[dict[str, str], str]:
    """Each source by a number of its own, and all of them in a note: a row of a table says the number alone.

    >>> numbered(("a book", "a bench", "a book"))
    ({'a book': '1', 'a bench': '2'}, '1: a book. 2: a bench.')
    """
    numbers = {source: f"{i}" for i, source in enumerate(dict.fromkeys(sources), start=1)}
    return numbers, " ".join(f"{which}: {source.rstrip('.')}." for source, which in numbers.items())


def worded_table(table: Table) -> Table:
    """The table, its caption and headings being texts of the interface."""
    return replace(table, worded=True)


def label_table(result: UnitResult, words: Words) -> Table:
    """The label against the bench, line by line."""
    record = result.unit.record
    rows = (
        ("Power", with_unit(record.rated_power_w, "W", 0), _found(result, "maximum_power.sustained_share", "of the label held")),
        ("Efficiency", _claimed_badge(result), _badge_words(result)),
        ("Noise", with_unit(record.claims.noise_dba, "dB(A)", 0) if record.claims.noise_dba else "nothing claimed",
         _found(result, "acoustic_noise.at_100", "at full load, 1 m")),
        ("Hold-up", with_unit(record.claims.hold_up_ms, "ms", 0) if record.claims.hold_up_ms else "nothing claimed",
         _found(result, "hold_up.rails_at_100", "at full load")),
        ("Protections", listed(tuple(PROTECTIONS[p] for p in record.claims.protections)) or "none named",
         _protections_words(result)),
        ("Standard", STANDARDS[record.claims.standard], "see the verdicts below"),
    )
    headings = ("", words.say("label.says"), words.say("label.found"))
    return worded_table(plain_table("label", words.say("label.caption"), headings, rows))


def _found(result: UnitResult, key: str, words: str) -> str:
    finding = result.finding(key)
    if finding is None:
        return f"{NOT_TESTED} at full load" if "full load" in words else NOT_TESTED
    return f"{finding_with_doubt(finding)} {words}"


def _claimed_badge(result: UnitResult) -> str:
    claims = result.unit.record.claims
    if claims.badge == "none" or claims.badge_mains is None:
        return "no badge"
    return f"{BADGES[claims.badge]} ({MAINS_CLASSES[claims.badge_mains]})"


def _badge_words(result: UnitResult) -> str:
    badge = result.badge
    supported = f"{BADGES[badge.supported]} level measured here" if badge.supported != "none" else "no level reached"
    return supported if badge.outcome != "not_tested" else NOT_TESTED


def _protections_words(result: UnitResult) -> str:
    checks = [v for v in result.verdicts if v.key.startswith("protections.") and v.finding is None]
    acted = sum(v.outcome in ("pass", "conditional_fail", "conditional_pass") for v in checks)
    untested = tuple(lower_first(v.title) for v in checks if v.outcome == "not_tested")
    absent = tuple(lower_first(v.title) for v in checks if v.outcome == "fail")
    words = [f"{acted} of {len(checks)} acted"]
    words += [f"{listed(absent)} did not act"] if absent else []
    words += [f"{listed(untested)} not tested"] if untested else []
    return "; ".join(words)


def badge_table(result: UnitResult, words: Words) -> Table | None:
    """The badge load by load, or nothing where no load was measured."""
    if not result.badge.rows:
        return None
    rows = tuple(
        (
            f"{'Efficiency' if row.what == 'efficiency' else 'Power factor'} at {number(row.load_pct, 0)} % load",
            with_unit(row.floor, "%", 0) if row.what == "efficiency" else number(row.floor, 2),
            finding_with_doubt(row.found) if row.found else NOT_TESTED,
            OUTCOMES[row.outcome],
        )
        for row in result.badge.rows
    )
    level = result.badge.claimed if result.badge.claimed != "none" else result.badge.supported
    caption = words.say("badge.caption", level=BADGES[level], mains=MAINS_CLASSES[result.badge.mains_class])
    headings = ("", words.say("badge.at_least"), words.say("limits.found"), words.say("limits.verdict"))
    told = result.badge.told
    memory = "" if told is None else (
        f" A power factor of {number(told.floor, 2)} at {number(told.load_pct, 0)} % load, which we know from memory only, decides nothing; "
        f"found: {finding_with_doubt(told.found) if told.found else NOT_TESTED}.")
    return worded_table(plain_table("badge", caption, headings, rows, note=f"{result.badge.document}.{memory}" if memory else result.badge.document))


def protections_table(result: UnitResult, words: Words) -> Table:
    """Protections: what happened when each was called upon."""
    checks = [v for v in result.verdicts if v.key.startswith("protections.") and v.finding is None]
    numbers, rules = numbered(v.document for v in checks)
    return Table(
        id="protections",
        caption=words.say("protections.caption"),
        worded=True,
        columns=(
            Column(key="what", title=words.say("protections.what")), Column(key="verdict", title=words.say("limits.verdict")),
            Column(key="detail", title=words.say("protections.happened")), Column(key="rule", title=words.say("protections.rule")),
        ),
        rows=tuple(
            (
                Cell(text=v.title), Cell(text=PROTECTION_OUTCOMES[v.outcome], warning=v.outcome == "fail"),
                Cell(text=v.detail), Cell(text=numbers[v.document]),
            )
            for v in checks
        ),
        note=f"Not tested is never a pass. Held against {rules}",
    )


def judged_numbers(result: UnitResult) -> tuple[Verdict, ...]:
    """The verdicts that belong in the table of limits: all but the protections."""
    return tuple(v for v in result.verdicts if not v.key.startswith("protections."))


def cables_table(result: UnitResult, words: Words) -> Table:
    """What comes in the box."""
    rows = tuple(
        (
            CONNECTORS[cable.connector], str(cable.count), str(cable.cables), with_unit(cable.length_mm, "mm", 0),
            "fixed" if cable.fixed else "modular",
        )
        for cable in result.unit.record.cables
    )
    headings = (
        words.say("cables.plug"), words.say("cables.plugs"), words.say("cables.cables"), words.say("cables.length"),
        words.say("cables.attached"),
    )
    return worded_table(plain_table(
        "cables", words.say("cables.caption"), headings, rows,
        note="Use only the cables that came with this very model: plugs of another may fit and carry other voltages.",
    ))


def samples_table(result: UnitResult, words: Words) -> Table:
    """Samples and sessions, and which of them the compared numbers rest on."""
    rows = tuple(
        (
            day(session.record.date), session.record.sample.id.upper(),
            OBTAINED[session.record.sample.obtained]
            + (f", {session.record.sample.from_whom}" if session.record.sample.from_whom else ""),
            session.record.sample.hardware_revision, with_unit(session.record.mains.voltage_v, "V", 0),
            with_unit(session.record.ambient_c, "°C", 0), session.record.tested_by,
            compared_words(session, result),
        )
        for session in result.sessions
    )
    note = (
        "Numbers are means over the samples; a limit is judged by the worse one."
        if len({s.record.sample.id for s in result.used}) > 1
        else "One sample says nothing of how much boxes of this model differ."
    )
    note += other_revisions(result) + other_mains(result)
    if len({s.record.sample.id for s in result.used}) < len(result.used):
        note += " Of one sample, each measure counts from the newest session that took it, and each protection from the newest that tried it."
    headings = (
        words.say("samples.session"), words.say("samples.sample"), words.say("samples.obtained"), words.say("facts.revision"),
        words.say("facts.mains"), words.say("samples.room"), words.say("samples.tester"), words.say("samples.compared"),
    )
    caption, notes = words.say("samples.caption"), (note, *_made_from_logs(result))
    return worded_table(plain_table("samples", caption, headings, rows, note=" ".join(notes)))


def _made_from_logs(result: UnitResult) -> Iterator[str]:
    """A sentence for each session that was made from logs: which, and how much of them entered the numbers."""
    for session in result.sessions:
        logs = session.record.provenance
        if logs:
            files = " and ".join(f"{log.log.rpartition('/')[2]} (SHA-256 {log.sha256[:12]}…)" for log in logs)
            used, read = sum(log.rows_used for log in logs), sum(log.rows_read for log in logs)
            yield (
                f"The loads of {day(session.record.date)} are means from {files}: "
                f"{number(used, 0)} of {number(read, 0)} readings, taken after each load had settled."
            )
