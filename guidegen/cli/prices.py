"""``guidegen prices``: a price table becomes new rows of a region."""

from pathlib import Path
from typing import Any

import click

from guidegen.cli.terminal import (
    answering,
    content_option,
    described,
    json_option,
    print_faults,
    print_json,
    quiet_option,
)
from guidegen.errors import ContentError, Fault
from guidegen.flow import new_prices
from guidegen.sources import PriceEntry, store_prices


@click.command("prices")
@click.argument("table", type=click.Path(path_type=Path), metavar="FILE")
@click.option("--region", required=True, help="Region whose prices they are.")
@click.option("--dry-run", is_flag=True, help="Show what would be written, and write nothing.")
@content_option
@json_option
@quiet_option
def command(*, table: Path, content: Path, as_json: bool, quiet: bool, **asked: Any) -> None:
    """Put the rows of FILE, a CSV with the columns of a price table, behind those of a region; on any fault nothing is written."""
    dry_run: bool = asked["dry_run"]
    with answering():
        try:
            entry, odd = new_prices(content, table, asked["region"])
        except ContentError as error:
            if not as_json:
                raise
            print_json({**_EMPTY, "faults": [described(fault) for fault in error.faults]})
            raise SystemExit(1) from error
        if not dry_run:
            store_prices(content, entry)
    if as_json:
        print_json(_document(entry, odd, written=bool(entry.rows) and not dry_run))
    else:
        _print(entry, odd, dry_run=dry_run, quiet=quiet)


_EMPTY: dict[str, Any] = {"file": None, "written": False, "rows": 0, "known": 0, "faults": [], "warnings": []}


def _document(entry: PriceEntry, odd: tuple[Fault, ...], *, written: bool) -> dict[str, Any]:
    return {
        **_EMPTY, "file": entry.file, "written": written, "rows": len(entry.rows), "known": entry.known,
        "warnings": [described(fault) for fault in odd],
    }


def _print(entry: PriceEntry, odd: tuple[Fault, ...], *, dry_run: bool, quiet: bool) -> None:
    if dry_run and entry.rows:
        click.echo(f"{entry.file} would get:\n\n{entry.added}", nl=False)
    verb = "would be added" if dry_run else "added"
    left = f"; {_rows(entry.known)} left out that stand there already or came twice" if entry.known else ""
    if not quiet:
        click.echo(f"{entry.file}: {_rows(len(entry.rows))} {verb}{left}.")
    if odd:
        click.echo("Far from the unit's other prices here; proof objects until they are put right or accepted:", err=True)
        print_faults(odd)


def _rows(count: int) -> str:
    return f"{count} {'row' if count == 1 else 'rows'}"
