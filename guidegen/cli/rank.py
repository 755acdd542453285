"""``guidegen rank``: places, reasons, how sure they are, and who has none."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import click
from rich.console import Console
from rich.table import Table

from guidegen.cli.asking import brackets_asked_for
from guidegen.cli.rank_documents import ranking_document, ranking_table
from guidegen.cli.terminal import answering, content_option, json_option, print_json, progress, quiet_option
from guidegen.errors import RequestError, unknown
from guidegen.evaluation import Assessment, BracketAssessment, Standing, robustness_of
from guidegen.flow import evaluate_content
from guidegen.presentation import compare, describe_choice, place_text, row_note, score_text, stability_words
from guidegen.records import Unit


@click.command("rank")
@click.argument("bracket", required=False)
@click.option("--region", help="Region whose prices count; the home region if left out.")
@click.option("--explain", nargs=2, metavar="UNIT UNIT", help="Say what sets two units of a bracket apart.")
@click.option("--csv", "as_csv", is_flag=True, help="Print a CSV table instead.")
@content_option
@json_option
@quiet_option
def command(*, bracket: str | None, content: Path, as_json: bool, quiet: bool, **asked: Any) -> None:
    """Show the ranking of all brackets, or of one: places, level units, and who is left out and why."""
    explain, as_csv = asked["explain"], asked["as_csv"]
    if as_csv and (as_json or explain):
        raise click.UsageError("--csv goes with neither --json nor --explain")
    with answering(writes=False, as_json=as_json):
        with progress(quiet=quiet) as report:
            assessment = evaluate_content(content, report=report)
        brackets = _asked_for(assessment, bracket, asked["region"])
        if explain:
            _refuse_apart(assessment, brackets, explain)
            _print_comparison(brackets, explain, as_json=as_json)
            return
    if as_json:
        print_json(ranking_document(assessment, brackets))
    elif as_csv:
        click.echo(ranking_table(brackets), nl=False)
    else:
        console = Console()
        for one in brackets:
            _print(console, one)


def _asked_for(assessment: Assessment, bracket: str | None, region: str | None) -> tuple[BracketAssessment, ...]:
    """The brackets asked for, each with how sure its order is."""
    policy, seed = assessment.library.policy, assessment.library.guide.edition.seed
    return tuple(
        replace(one, robustness=one.robustness or robustness_of(one.ranking, policy, seed=seed))
        for one in brackets_asked_for(assessment, bracket, region)
    )


def _refuse_apart(assessment: Assessment, brackets: tuple[BracketAssessment, ...], units: tuple[str, str]) -> None:
    """Raise ``RequestError`` unless both units are ranked in one of the brackets, and say where they stand instead."""
    known = {s.candidate.id: one.ranking.bracket.id for one in brackets for s in one.ranking.standings}
    for name in units:
        unit = assessment.library.unit(name)
        if name not in known and unit is None:
            raise RequestError(unknown("unit", name, tuple(known)))
        if name not in known and unit is not None:
            raise RequestError(f"{name} {_elsewhere(assessment, unit)}, expected two units of bracket {', '.join(b.ranking.bracket.id for b in brackets)}")
    if known[units[0]] != known[units[1]] or units[0] == units[1]:
        where = "" if units[0] == units[1] else f" (they stand in {known[units[0]]} and {known[units[1]]})"
        raise RequestError(f"{units[0]} and {units[1]} are not two units of one bracket{where}; only those are ranked together")


def _elsewhere(assessment: Assessment, unit: Unit) -> str:
    """Where a unit stands that is not ranked in the brackets asked for."""
    gone, bracket = unit.record.withdrawn, assessment.library.guide.bracket_of(unit.record.rated_power_w)
    if gone is not None:
        return f"was withdrawn on {gone.on.isoformat()} and is ranked no more"
    return f"is rated {unit.record.rated_power_w:g} W and stands in bracket {bracket.id if bracket else 'none'}"


def _print_comparison(brackets: tuple[BracketAssessment, ...], units: tuple[str, str], *, as_json: bool) -> None:
    one = next(one for one in brackets if one.ranking.standing(units[0]) is not None)
    sentences = compare(one.ranking, units, one.robustness)
    if not as_json:
        click.echo(" ".join(sentences))
        return
    first, second = (one.ranking.standing(unit) for unit in units)
    sure, placed = one.robustness, all(s is not None and s.place is not None for s in (first, second))
    print_json(
        {
            "bracket": one.ranking.bracket.id,
            "units": list(units),
            "points": first.candidate.score.low - second.candidate.score.low if first and second and placed else None,
            "chance_above": sure.measurement.chance_above(*units) if sure and placed else None,
            "level": first is not None and units[1] in first.level_with if placed else None,
            "sentences": list(sentences),
        }
    )


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
            f"{score.technical:.1f}" if placed else "", standing.tier.title, row_note(standing, above)[0],
        )
        above = standing
    console.print(table)
    for chosen in one.choices:
        described = describe_choice(chosen, one.ranking)
        name = chosen.standing.candidate.name if chosen.standing else "none"
        console.print(f"  {chosen.rule.title}: {name}. {described.why}", highlight=False, soft_wrap=True)
    sentence = stability_words(one)
    if sentence:
        console.print(f"  How sure: {sentence}", highlight=False, soft_wrap=True)
    console.print()
