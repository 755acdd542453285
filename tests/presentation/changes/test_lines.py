"""Changes in words: whole, without saying a thing twice, and with numbers that add up as printed."""

import re
from dataclasses import replace
from datetime import date
from decimal import Decimal

from guidegen.evaluation import Changes, assess, changes_between, evaluate_units
from guidegen.presentation import change_lines, compose, sentence_of, told_of, unit_lines
from guidegen.presentation.page_keys import Keys
from guidegen.presentation.sheets import ProseSheet
from guidegen.records import Anchor, Library, Override, PriceRow, UnitRecord
from guidegen.rounding import MINUS, NO_BREAK
from guidegen.sources import read_library
from tests.conftest import CONTENT

SMALL = CONTENT.parent / "tests" / "small_edition" / "content"
CAIRN, EMBER = "ostrevant-cairn-550", "wexcombe-ember-550"


def between(before: Library, after: Library) -> Changes:
    """The two guides compared in Ireland."""
    return changes_between(evaluate_units(before), evaluate_units(after), region="ie")


def lines(changes: Changes, bracket: str | None = "550") -> list[str]:
    """The lines with ordinary spaces."""
    return [line.replace(NO_BREAK, " ") for line in change_lines(changes, bracket)]


def with_record(library: Library, unit: str, **fields: object) -> Library:
    """The library with some facts of a unit's box changed."""
    def changed(record: UnitRecord) -> UnitRecord:
        return replace(record, **fields)  # type: ignore[arg-type]

    return replace(library, units=tuple(replace(u, record=changed(u.record)) if u.id == unit else u for u in library.units))


def with_price(library: Library, unit: str, price: float | None) -> Library:
    """The library with another price of a unit in all its rows; without rows where there is none."""
    def rows(old: tuple[PriceRow, ...]) -> tuple[PriceRow, ...]:
        kept = (row for row in old if row.unit != unit or price is not None)
        return tuple(replace(row, price=price) if row.unit == unit else row for row in kept)

    return replace(library, prices=tuple(replace(p, rows=rows(p.rows)) for p in library.prices))


def with_points(library: Library, criterion: str, points: float) -> Library:
    """The library with other points of a criterion."""
    criteria = tuple(replace(c, points=points) if c.id == criterion else c for c in library.policy.criteria)
    return replace(library, policy=replace(library.policy, criteria=criteria))


def test_a_predecessor_is_called_by_its_name() -> None:
    """Not by the short name that its record has."""
    before = read_library(SMALL)
    name = next(unit.name for unit in before.units if unit.id == CAIRN)
    told = lines(between(before, with_record(before, EMBER, predecessor=CAIRN)))

    assert any(f"record of the box: predecessor is the {name}, which was not said before" in line for line in told)


def test_points_by_cause_add_up_as_they_are_printed() -> None:
    """For many prices and weights at once: the printed parts sum to the printed difference, to the last digit shown."""
    before, told = read_library(SMALL), []
    pattern = re.compile(r"from (\S+) to (\S+): (\S+) points by .* and (\S+) by")
    for cents in range(4000, 9000, 700):
        after = with_points(with_price(before, CAIRN, cents / 100), "noise", cents / 60)
        matches = (pattern.search(line) for line in lines(between(before, after)))
        told += [[Decimal(text.replace(MINUS, "-")) for text in match.groups()] for match in matches if match]

    assert len(told) >= 5
    assert [] == [parts for parts in told if parts[1] - parts[0] != parts[2] + parts[3]]


def test_a_fact_that_counts_for_nothing_is_told_so() -> None:
    """The warranty is no criterion of the small edition."""
    small = read_library(SMALL)
    changes = between(small, with_record(small, CAIRN, warranty_years=3.0))

    assert ["The Ostrevant Cairn 550, record of the box: warranty_years is 3, was 7; its score has not moved by it."] == lines(changes)
    assert [] == lines(changes, "650")


def test_a_price_that_is_gone_says_what_it_was() -> None:
    """The score falls by it, and what can't be bought is no choice."""
    small = read_library(SMALL)
    told = lines(between(small, with_price(small, CAIRN, None)))

    assert told[0].startswith("First choice and quietest choice: the Wexcombe Ember 550 instead of the Ostrevant Cairn 550; ")
    assert told[0].endswith("; the Ostrevant Cairn 550 has no fresh price; decided by prices.")
    assert any("by the want of a price that counts (it was € 92)" in line for line in told)


def test_a_price_that_moves_no_score_is_told_beside_the_others() -> None:
    """Below the lowest anchor a price is worth no more; prices that would print alike show their cents."""
    small = read_library(SMALL)
    cheap = with_price(small, CAIRN, 40.2)

    assert ["Prices that move no score: the Ostrevant Cairn 550 € 40.20 to € 39.90."] == lines(between(cheap, with_price(small, CAIRN, 39.9)))


def test_a_word_that_changed_alone_has_its_reason() -> None:
    """A tier moved in the policy; no score did."""
    small = read_library(SMALL)
    tiers = tuple(replace(t, from_score=75.0) if t.id == "dependable" else t for t in small.policy.tiers)
    changes = between(small, replace(small, policy=replace(small.policy, tiers=tiers)))

    assert ["Policy, tiers[dependable].from_score: 75, was 65."] == lines(changes, None)
    assert ["The Wexcombe Ember 550 is Acceptable now, was Dependable, through the changed policy."] == lines(changes)


def test_a_new_session_has_its_day_and_moves_what_it_moves() -> None:
    """A second session of the same sample, with other facts of nothing: it is the newest, and counts."""
    small = read_library(SMALL)
    first = next(s for s in small.sessions if s.unit == CAIRN)
    again = replace(first, file=f"units/{CAIRN}/2026-04-02.yaml", record=replace(first.record, date=date(2026, 4, 2)))
    changes = between(small, replace(small, sessions=(*small.sessions, again)))

    assert ["The Ostrevant Cairn 550 was tested again on 2 April 2026; its score has not moved by it."] == lines(changes)
    assert ["The Ostrevant Cairn 550: the session of 2 April 2026 is taken out; its score has not moved by it."] == lines(
        between(replace(small, sessions=(*small.sessions, again)), small)
    )


def test_a_new_session_of_another_revision_names_both() -> None:
    """The newer one first."""
    small = read_library(SMALL)
    first = next(s for s in small.sessions if s.unit == CAIRN)
    sample = replace(first.record.sample, id="c", hardware_revision="1.1")
    again = replace(first, file=f"units/{CAIRN}/2026-04-02.yaml", record=replace(first.record, date=date(2026, 4, 2), sample=sample))
    told = lines(between(small, replace(small, sessions=(*small.sessions, again))))

    assert [True] == ["was tested again on 2 April 2026, in hardware revision 1.1; before it was revision " in one for one in told]


def test_a_choice_of_the_editor_s_is_told_with_its_reason() -> None:
    """By its bracket and name in the policy, and as the choice that it makes."""
    small = read_library(SMALL)
    own = Override(bracket="550", choice="first", unit=EMBER, reason="The best that little money buys.")
    changes = between(small, replace(small, policy=replace(small.policy, overrides=(own,))))

    assert ["Policy, overrides[550 first] is new."] == lines(changes, None)
    assert (
        "First choice: the Wexcombe Ember 550 instead of the Ostrevant Cairn 550; the editor's choice: "
        "The best that little money buys."
    ) == " ".join(lines(changes))


def test_a_bracket_that_is_new_says_so() -> None:
    """Everything in it came by the policy, and so did its choices."""
    small = read_library(SMALL)
    before = replace(small, guide=replace(small.guide, brackets=small.guide.brackets[:1]))
    told = lines(between(before, small), "650")

    assert "First choice, quietest choice and best value: the Tarnbeck Kiln 650 now, the bracket is new; decided by the policy." == told[0]
    assert "The Tarnbeck Kiln 650 comes into this bracket with place 1 through the changed policy." == told[1]


def test_the_lines_of_a_unit_are_its_own() -> None:
    """For its page: place with score, word, price; nothing of another unit."""
    small = read_library(SMALL)
    changes = between(small, with_price(small, CAIRN, 150.0))
    told = [line.replace(NO_BREAK, " ") for line in unit_lines(changes, CAIRN)]

    assert (
        "The Ostrevant Cairn 550 falls from place 1 to place 2: its score goes from 77.7 to 65.2 by a higher price "
        "(€ 92 to € 150); the Wexcombe Ember 550 stands above it now. "
        "The Ostrevant Cairn 550 costs € 150 in Ireland, was € 92."
    ) == " ".join(told)


def test_every_change_has_a_sentence_of_its_own() -> None:
    """Over all kinds that two years of the demo could have: one sentence each, ended by a stop, without a loose word."""
    small, demo = read_library(SMALL), read_library(CONTENT)
    after = with_points(with_price(with_record(demo, "norvane-mesa-850", rated_power_w=750.0), "brevik-tarn-850", 60.0), "noise", 10.0)
    both = (between(demo, after), between(small, with_price(small, EMBER, None)))
    told = [sentence_of(changes, one) for changes in both for one in changes.all]

    assert len(told) > 40
    assert [] == [line for line in told if not line.endswith(".") or ".." in line or "  " in line or " ." in line or "()" in line or "None" in line]


def moved_home() -> tuple[Library, Library]:
    """The small edition as it was with another home region, and with Ireland."""
    small = read_library(SMALL)
    guide = small.guide
    other = replace(guide, home_region="nd", regions=(*guide.regions, replace(guide.regions[0], id="nd", name="Norland")))
    return replace(small, guide=other), replace(small, guide=replace(other, home_region="ie"))


def test_a_change_of_the_home_region_is_a_change() -> None:
    """An edition that was printed by other prices is told by ours, so the page says whose both are and whose its own were."""
    before, after = moved_home()
    changes = between(before, after)
    told = told_of(changes, Keys.of(after))
    made = compose(assess(after), changes=told)
    (page,) = (sheet for sheet in made.sheets if sheet.address == "changes/")

    assert ("The home region is Ireland, was Norland: printed scores, places and choices follow its prices.",) == told.policy
    assert ("Ireland", "Norland") == (told.region, told.own_home)
    assert isinstance(page, ProseSheet)
    assert "Both are compared by prices in Ireland. Edition 2026 had another home region and was printed by prices in Norland" in page.lead
    assert told.policy[0] in page.sections[0].html


def test_the_same_home_is_named_once() -> None:
    """Whose prices count is said in any case, and no other region is spoken of."""
    _, after = moved_home()
    told = told_of(between(after, after), Keys.of(after))
    (page,) = (sheet for sheet in compose(assess(after), changes=told).sheets if sheet.address == "changes/")

    assert ((), "") == (told.policy, told.own_home)
    assert isinstance(page, ProseSheet)
    assert page.lead.endswith(" Both are compared by prices in Ireland.</p>")


def test_a_corrected_box_is_no_measurement() -> None:
    """A choice that a fact of the box decides is not decided by what was measured; with a session beside it, by both."""
    small = read_library(SMALL)
    first, *others = small.policy.criteria
    warranty = replace(first.parts[0], finding="warranty.years", anchors=(Anchor(at=0.0, worth=0.0), Anchor(at=20.0, worth=1.0)))
    before = replace(small, policy=replace(small.policy, criteria=(replace(first, points=900.0, parts=(warranty,)), *others)))
    after = with_record(before, EMBER, warranty_years=20)
    again = replace(after, sessions=tuple(
        replace(one, record=replace(one.record, ambient_c=24.0)) if one.unit == EMBER else one for one in after.sessions))

    assert lines(between(before, after))[0].endswith("; decided by the record of the box.")
    assert lines(between(before, again))[0].endswith("; decided by what was measured and the record of the box.")


def test_a_new_criterion_is_told_with_its_points() -> None:
    """What it weighs is the news."""
    small = read_library(SMALL)
    *others, last = small.policy.criteria
    before = replace(small, policy=replace(small.policy, criteria=tuple(others)))

    assert f"{last.title} is a new criterion and counts {last.points:g} points." in lines(between(before, small), None)
