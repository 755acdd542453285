"""``guidegen rank``: places, reasons, and who has none."""

from pathlib import Path
from typing import Any

import click
from rich.console import Console
from rich.table import Table

from guidegen.cli.terminal import answering, content_option, json_option, print_json, progress, quiet_option
from guidegen.errors import RequestError, nearest_name
from guidegen.evaluation import Assessment, BracketAssessment, Standing
from guidegen.flow import evaluate_content
from guidegen.presentation import describe_choice, place_text, score_text, standing_note


@click.command("rank")
@click.argument("bracket", required=False)
@click.option("--region", help="Region whose prices count; the home region if left out.")
@content_option
@json_option
@quiet_option
def command(*, bracket: str | None, region: str | None, content: Path, as_json: bool, quiet: bool) -> None:
    """Show the ranking of all brackets, or of one: places, level units, and who is left out and why."""
    with answering():
        with progress(quiet=quiet) as report:
            assessment = evaluate_content(content, report=report)
        brackets = _asked_for(assessment, bracket, region)
    if as_json:
        print_json(
            {
                "edition": assessment.library.guide.edition.name,
                "brackets": [_document(one) for one in brackets],
            }
        )
        return
    console = Console()
    for one in brackets:
        _print(console, one)


def _asked_for(assessment: Assessment, bracket: str | None, region: str | None) -> tuple[BracketAssessment, ...]:
    guide = assessment.library.guide
    regions = tuple(one.id for one in guide.regions)
    if region is not None and region not in regions:
        raise RequestError(_unknown("region", region, regions))
    names = tuple(one.id for one in guide.brackets)
    if bracket is not None and bracket not in names:
        raise RequestError(_unknown("bracket", bracket, names))
    inside = assessment.in_region(region or guide.home_region)
    return tuple(one for one in inside if bracket in (None, one.ranking.bracket.id))


def _unknown(kind: str, name: str, known: tuple[str, ...]) -> str:
    nearest = nearest_name(name, known)
    hint = f"; did you mean {nearest}?" if nearest else ""
    return f"no {kind} {name}; there are {', '.join(known)}{hint}"


def _document(one: BracketAssessment) -> dict[str, Any]:
    return {
        "bracket": one.ranking.bracket.id,
        "region": one.ranking.region.id,
        "units": [_unit(standing) for standing in one.ranking.standings],
        "choices": [
            {
                "choice": chosen.rule.id,
                "unit": chosen.standing.candidate.id if chosen.standing else None,
                "reason": describe_choice(chosen, one.ranking).why,
            }
            for chosen in one.choices
        ],
    }


def _unit(standing: Standing) -> dict[str, Any]:
    one = standing.candidate
    return {
        "unit": one.id,
        "place": standing.place,
        "place_range": [standing.best, standing.worst] if standing.place is not None else None,
        "score": one.score.low,
        "score_range": [one.score.low, one.score.high],
        "score_uncertainty": one.score.uncertainty,
        "technical_score": one.score.technical,
        "tier": standing.tier.title,
        "level_with": list(standing.level_with),
        "parts": {criterion.id: criterion.low for criterion in one.score.criteria},
        "gates": [{"gate": gate.gate.id, "verdict": gate.outcome} for gate in one.gates],
    }


def _print(console: Console, one: BracketAssessment) -> None:
    table = Table(title=f"{one.ranking.bracket.title}, {one.ranking.region.name}", title_justify="left", box=None)
    for heading in ("Place", "Unit", "Score", "Before price", "Word", "Note"):
        table.add_column(heading, justify="right" if heading in ("Score", "Before price") else "left")
    above: Standing | None = None
    for standing in one.ranking.standings:
        score = standing.candidate.score
        placed = standing.place is not None
        table.add_row(
            place_text(standing) or "none", standing.candidate.name, score_text(score) if placed else "",
            f"{score.technical:.1f}" if placed else "", standing.tier.title, standing_note(standing, above)[0],
        )
        above = standing
    console.print(table)
    for chosen in one.choices:
        described = describe_choice(chosen, one.ranking)
        name = chosen.standing.candidate.name if chosen.standing else "none"
        console.print(f"  {chosen.rule.title}: {name}. {described.why}", highlight=False, soft_wrap=True)
    console.print()
