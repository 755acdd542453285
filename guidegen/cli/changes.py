"""``guidegen changes``: what this content says differently from another, and why."""

from pathlib import Path
from typing import Any

import click

from guidegen.cli.terminal import answering, content_option, json_option, print_json, progress, quiet_option
from guidegen.errors import RequestError, unknown
from guidegen.evaluation import CAUSES, Change, Changes
from guidegen.flow import compare
from guidegen.presentation import change_lines, other_home, sentence_of
from guidegen.sources import records_of, youngest_records


@click.command("changes")
@click.argument("bracket", required=False)
@click.option("--against", metavar="NAME|DIR",
              help="Frozen edition to compare with, by its name, the youngest if left out; or a folder of content, with a separator or a point first: ./before.")
@click.option("--region", help="Region whose prices count; the home region if left out.")
@content_option
@json_option
@quiet_option
def command(*, bracket: str | None, content: Path, as_json: bool, quiet: bool, **asked: Any) -> None:
    """Say what this content changes against another: units, choices, places and scores, each with its reason."""
    with answering(writes=False, as_json=as_json):
        against = _folder(content, asked["against"])
        with progress(quiet=quiet) as report:
            changes = compare(content, against, region=asked["region"], report=report)
        brackets = tuple(one.id for one in changes.guides.brackets)
        if bracket is not None and bracket not in brackets:
            raise RequestError(unknown("bracket", bracket, brackets))
    if as_json:
        print_json(_document(changes, bracket))
    else:
        _print(changes, against, bracket)


def _folder(content: Path, against: str | None) -> Path:
    """The folder to compare with: one that is written as a path, or the records of the edition of this name or the youngest."""
    if against is None:
        return youngest_records(content)
    if against.startswith(".") or any(mark in against for mark in "/\\"):
        return Path(against)
    return records_of(content, against)


def _print(changes: Changes, against: Path, bracket: str | None) -> None:
    edition = changes.guides.before.library.guide.edition
    asked = tuple(one for one in changes.guides.brackets if bracket in (None, one.id))
    told = [("Policy", change_lines(changes)), *((one.title, change_lines(changes, one.id)) for one in asked)]
    if not any(lines for _, lines in told):
        where = f" from {asked[0].title}" if bracket is not None else ""
        click.echo(f"Nothing has changed{where} since edition {edition.name}, printing {edition.printing}, in {against}: no unit, record, price or rule that counts differs.")
        return
    home = other_home(changes)
    elsewhere = f" (its own home region was {home}, and it was printed by prices there)" if home else ""
    click.echo(f"Since edition {edition.name}, printing {edition.printing}, in {against}, prices of {_region_name(changes)}{elsewhere}:")
    for title, lines in told:
        if lines:
            click.echo(f"\n{title}")
        for line in lines:
            click.echo(f"  {line}")


def _region_name(changes: Changes) -> str:
    return next(one.name for one in changes.guides.after.library.guide.regions if one.id == changes.guides.region)


def _document(changes: Changes, bracket: str | None) -> dict[str, Any]:
    """The whole answer; scores and shares at full precision. The policy belongs to every bracket."""
    return {
        "since": changes.guides.before.library.guide.edition.name,
        "region": changes.guides.region,
        "changes": [_described(changes, one) for one in changes.all if bracket is None or one.bracket in (None, bracket)],
    }


def _described(changes: Changes, one: Change) -> dict[str, Any]:
    return {
        "kind": one.kind, "unit": one.unit, "bracket": one.bracket, "what": one.what or None,
        "from": one.before, "to": one.after,
        "because": {cause: one.because.of(cause) for cause in CAUSES}, "counted_in": one.because.counted_in,
        "sentence": sentence_of(changes, one),
    }
