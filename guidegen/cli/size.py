"""``guidegen size``: from parts, or a plug meter, to a rating and the units that fit."""

import re
from dataclasses import asdict
from pathlib import Path
from typing import Any

import click
from rich.console import Console
from rich.table import Table

from guidegen.cli.terminal import answering, content_option, json_option, print_json, progress, quiet_option
from guidegen.errors import RequestError
from guidegen.evaluation import ABSENCES, Advice, Assessment, Question, UnitCost, UnitFit, Wishes, advise
from guidegen.flow import evaluate_content
from guidegen.presentation import matrix_of, no_more_than, score_range
from guidegen.sources import read_build

_COUNT = re.compile(r"0*[1-9][0-9]{0,5}")
"""How many parts of a class, as it stands behind the =."""


@click.command("size")
@click.option("--part", "parts", multiple=True, metavar="CLASS[=N]",
              help="A class of parts in the computer, such as graphics.high or memory.module=4; once for each class.")
@click.option("--build", type=click.Path(path_type=Path), metavar="FILE",
              help="A YAML file of the computer: parts, and below it CLASS: COUNT, one a line.")
@click.option("--wall", type=float, metavar="W", help="What a plug meter shows at full load, W.")
@click.option("--delivered", type=float, metavar="W", help="Delivered power at full load, W.")
@click.option("--mains", type=float, metavar="V", help="Mains voltage, V; the region's if left out.")
@click.option("--region", default="", help="Region; the home region if left out.")
@click.option("--profile", default="", help="Reader profile; the first if left out.")
@click.option("--headroom", type=float, default=0.0, metavar="PCT", help="Room for a later upgrade, % of the load.")
@click.option("--depth", type=float, metavar="MM", help="Depth that the case allows, mm.")
@click.option("--budget", type=float, help="Most that it may cost, in the region's currency.")
@click.option("--table", "as_table", is_flag=True, help="Print processor by graphics classes instead.")
@content_option
@json_option
@quiet_option
def command(*, content: Path, as_json: bool, quiet: bool, as_table: bool, **asked: Any) -> None:
    """Say how many watts a computer needs, why, and which units of the guide fit."""
    with answering(writes=False, as_json=as_json):
        if not as_table:
            _check_ways(asked)
        named = _parts(asked["parts"])
        with progress(quiet=quiet) as report:
            assessment = evaluate_content(content, report=report)
        if asked["build"] and not as_table:
            named = read_build(asked["build"], content, assessment.library.parts).parts
        advice = None if as_table else advise(_question(asked, named), assessment)
    if advice is None:
        _print_matrix(assessment)
    elif as_json:
        print_json({**asdict(advice), "units": [_unit(one) for one in advice.units], "loads": _loads(advice)})
    else:
        _print(advice)


def _check_ways(asked: dict[str, Any]) -> None:
    given = [asked[way] for way in ("parts", "build", "wall", "delivered") if asked[way] not in (None, ())]
    if len(given) != 1:
        raise RequestError(f"came {len(given)}, expected exactly one of --part, --build, --wall and --delivered")


def _question(asked: dict[str, Any], named: dict[str, int]) -> Question:
    wishes = Wishes(headroom_pct=asked["headroom"], depth_mm=asked["depth"], budget=asked["budget"])
    return Question(
        parts=named or None, delivered_w=asked["delivered"], wall_w=asked["wall"],
        mains_v=asked["mains"], region=asked["region"], profile=asked["profile"], wishes=wishes,
    )


def _parts(named: tuple[str, ...]) -> dict[str, int]:
    counts: dict[str, int] = {}
    for one in named:
        name, behind, count = one.partition("=")
        if behind and not _COUNT.fullmatch(count):
            raise RequestError(f"--part {one}: came {count or 'nothing'}, expected a whole number of one or more behind the =")
        if name in counts:
            raise RequestError(f"--part {name}: came twice, expected each class once; --part {name}={counts[name] + int(count or 1)} for all of them")
        counts[name] = int(count or 1)
    return counts


def _unit(fit: UnitFit) -> dict[str, Any]:
    return asdict(fit)


def _loads(advice: Advice) -> dict[str, dict[str, Any]]:
    return {
        load.use: {"delivered_w": load.delivered_w, "wall_w": load.wall_w, "share": load.share,
                   "efficiency_pct": load.efficiency_pct, "measured_on": load.measured_on}
        for load in advice.loads
    }


def _print(advice: Advice) -> None:
    console = Console(highlight=False, soft_wrap=True)
    for sentence in advice.sentences:
        console.print(sentence, markup=False)
    costs = {one.unit: one for one in advice.costs}
    if advice.units:
        table = Table(box=None)
        for heading in ("Unit", "Rated", "Score", "Share", "Efficiency", "Heat", "Noise", "Energy a year", "Cost a year", "Price"):
            table.add_column(heading, justify="left" if heading == "Unit" else "right")
        for fit in advice.units:
            table.add_row(
                fit.name, f"{fit.rating_w:.0f} W", score_range(fit.score, fit.score_high), f"{100 * fit.share:.0f} %", _or_dash(fit.efficiency_pct, "%"),
                _or_dash(fit.heat_w, "W"), no_more_than(_or_dash(fit.noise_dba, "dB(A)"), bound=fit.noise_bound),
                *_yearly(costs.get(fit.unit)), _price(fit),
            )
        console.print(table)
    console.print("How it was worked out:")
    for step in advice.steps:
        console.print(f"  {step}", markup=False)
    console.print("Before you buy and build:")
    for caution in advice.cautions:
        console.print(f"  {caution.text}", markup=False)


def _price(fit: UnitFit) -> str:
    """The price, and why the unit can't be bought where it can't."""
    price = f"{fit.price:.0f}" if fit.price is not None else ""
    return ", ".join(filter(None, (price, ABSENCES.get(fit.absent, ""))))


def _yearly(cost: UnitCost | None) -> tuple[str, str]:
    if cost is None:
        return "not tested", "not tested"
    return f"{cost.energy.energy.value:.0f} kWh", f"{cost.cost.value:.2f}"


def _or_dash(value: float | None, unit: str) -> str:
    return f"{value:.1f} {unit}" if value is not None else "not tested"


def _print_matrix(assessment: Assessment) -> None:
    described = matrix_of(assessment)
    table = Table(title=described.caption, title_justify="left", box=None)
    for column in described.columns:
        table.add_column(column.title, justify="right" if column.numeric else "left")
    for row in described.rows:
        table.add_row(*(cell.text for cell in row))
    console = Console(highlight=False)
    console.print(table)
    console.print(described.note)
