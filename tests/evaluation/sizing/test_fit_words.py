"""What is said of the units that fit: nothing stands alone and is the best, and what can't be bought is said to be so."""

import pytest

from guidegen.evaluation import Assessment
from guidegen.evaluation.sizing import Field, Question, Wishes, advise, field_in, fit_units
from guidegen.evaluation.sizing.fit_words import fit_words
from guidegen.evaluation.sizing.questions import ask

HEARTH, KILN, CAIRN, EMBER = "tarnbeck-hearth-650", "tarnbeck-kiln-650", "ostrevant-cairn-550", "wexcombe-ember-550"
NAMES = {HEARTH: "Tarnbeck Hearth 650", KILN: "Tarnbeck Kiln 650", CAIRN: "Ostrevant Cairn 550", EMBER: "Wexcombe Ember 550"}


def said(small: Assessment, load_w: float, *, units: tuple[str, ...] = (HEARTH, KILN, CAIRN, EMBER), absent: dict[str, str] | None = None,
         highest: dict[str, float] | None = None) -> str:
    """The sentences for a load, with ordinary spaces, without the one about peaks."""
    asked = ask(Question(delivered_w=load_w, wishes=Wishes()), small)
    field = Field(
        results=small.results, advised=frozenset(units), scores={HEARTH: 50.0, KILN: 70.0, CAIRN: 60.0, EMBER: 40.0},
        prices={HEARTH: 80.0, KILN: 120.0, CAIRN: 90.0, EMBER: 70.0}, highest=highest or {}, absent=absent or {},
    )
    words = fit_words(fit_units(asked.search, field, small.library.policy.sizing), asked)
    return " ".join(words[:-1]).replace("\N{NO-BREAK SPACE}", " ")


@pytest.mark.parametrize(("load_w", "units", "absent", "told"), [
    (380.0, (HEARTH, KILN), {}, "2 advised units fit; Tarnbeck Kiln 650 has the best score."),
    (380.0, (KILN,), {}, "One advised unit fits: Tarnbeck Kiln 650."),
    (380.0, (KILN,), {KILN: "no_price"}, "One advised unit fits: Tarnbeck Kiln 650. Not to be had at present: Tarnbeck Kiln 650 (no fresh price)."),
    (380.0, (HEARTH, KILN), {KILN: "hard_to_find"},
     "2 advised units fit; Tarnbeck Hearth 650 is the only one that can be bought. Not to be had at present: Tarnbeck Kiln 650 (hard to find)."),
    (380.0, (HEARTH, KILN), {KILN: "hard_to_find", HEARTH: "out_of_stock"},
     "2 advised units fit. Not to be had at present: Tarnbeck Kiln 650 (hard to find) and Tarnbeck Hearth 650 (out of stock)."),
    (320.0, (HEARTH, KILN, CAIRN, EMBER), {}, "4 advised units fit; Ostrevant Cairn 550 has the best score of those with 550 W."),
    (320.0, (HEARTH, KILN, CAIRN), {}, "3 advised units fit; Ostrevant Cairn 550 is the only one with 550 W."),
    (320.0, (HEARTH, KILN, CAIRN), {CAIRN: "no_price"},
     "3 advised units fit; Tarnbeck Kiln 650 has the best score of those with 650 W. Not to be had at present: Ostrevant Cairn 550 (no fresh price)."),
    (320.0, (KILN, CAIRN, EMBER), {CAIRN: "no_price"},
     ("3 advised units fit; Wexcombe Ember 550 is the only one with 550 W that can be bought. "
      "Not to be had at present: Ostrevant Cairn 550 (no fresh price).")),
])
def test_the_first_unit_is_called_what_it_is(
    small: Assessment, load_w: float, units: tuple[str, ...], absent: dict[str, str], told: str
) -> None:
    """The best of several that can be bought, the only one, or nothing; and what can't be had, with the reason."""
    assert told == said(small, load_w, units=units, absent=absent)


def test_a_score_that_is_partly_unknown_is_best_only_by_what_is_known(small: Assessment) -> None:
    """Whether it is the first one's or that of another, which may be the better one; one of another rating is no matter."""
    counted = "Tarnbeck Kiln 650 has the best score, with what was not tested counted at its worst."

    assert said(small, 380.0, units=(HEARTH, KILN), highest={KILN: 80.0}).endswith(counted)
    assert said(small, 380.0, units=(HEARTH, KILN), highest={HEARTH: 80.0}).endswith(counted)
    assert "at its worst" not in said(small, 320.0, highest={HEARTH: 80.0})


@pytest.mark.parametrize("region", ["ie", "us"])
def test_the_demo_calls_best_or_cheapest_nothing_that_cannot_be_bought(demo: Assessment, region: str) -> None:
    """At every load: the same units as the choices of the guide leave out, and none of them is named but as not to be had."""
    found = next(one for one in demo.library.guide.regions if one.id == region)
    views = {s.candidate.name: s.candidate.prices for one in demo.in_region(region) for s in one.ranking.standings}
    gone = {name for name, view in views.items() if not view.available}
    met = set()
    for load in range(100, 1000, 20):
        advice = advise(Question(delivered_w=float(load), region=region), demo)
        absent = [one.name for one in advice.units if one.absent]
        met |= set(absent)

        assert set(absent) == gone & {one.name for one in advice.units}
        assert absent == [one.name for one in advice.units[len(advice.units) - len(absent):]]
        assert [] == [s for s in advice.sentences for name in absent
                      if name in s and not s.startswith(("Not to be had at present: ", "One advised unit fits: "))]
    assert "Marlowe & Fenn Highway 1500" in met
    assert field_in(demo, found).highest
