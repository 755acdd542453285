"""The charts of a bracket's page, told to the drawings."""

from guidegen.evaluation import BracketAssessment, Standing
from guidegen.presentation.charts import (
    Panel,
    PanelSet,
    PricedUnit,
    PriceField,
    multiples_chart,
    price_score_chart,
)
from guidegen.presentation.formatting import money
from guidegen.presentation.pieces import Chart
from guidegen.presentation.unit_charts import readings, round_up, spans


def bracket_charts(one: BracketAssessment) -> tuple[Chart, ...]:
    """Price against technical score, and every unit's noise at one scale."""
    standings = one.ranking.standings
    priced = tuple(unit for standing in standings if (unit := _priced(standing)) is not None)
    charts = []
    if len(priced) >= 2:
        charts.append(
            price_score_chart(
                PriceField(
                    id="value", bracket=one.ranking.bracket.title, currency=one.ranking.region.currency_mark,
                    price_max=round_up(max(unit.price for unit in priced)), units=priced,
                )
            )
        )
    for measure, key in (("noise", "acoustic_noise"), ("efficiency", "efficiency")):
        charts += _multiples(one, measure, key)
    return tuple(charts)


def _priced(standing: Standing) -> PricedUnit | None:
    one = standing.candidate
    best = one.prices.best
    if best is None or best.row.price is None:
        return None
    return PricedUnit(
        name=one.name, price=best.row.price, price_text=money(best.row.price, one.prices.region),
        score=one.score.technical, advised=standing.place is not None,
    )


def _multiples(one: BracketAssessment, measure: str, key: str) -> list[Chart]:
    panels = tuple(
        Panel(name=s.candidate.name, readings=readings(s.candidate.result, key), warning=s.candidate.fails)
        for s in one.ranking.standings
    )
    if not any(panel.readings for panel in panels):
        return []
    field = tuple(s.candidate.result for s in one.ranking.standings)
    return [
        multiples_chart(
            PanelSet(
                id=f"all-{measure}", bracket=one.ranking.bracket.title,
                measure="noise" if measure == "noise" else "efficiency", panels=panels, span=spans(field, key),
            )
        )
    ]
