"""``guidegen intake``: a bench's log becomes a session record."""

from datetime import datetime
from pathlib import Path
from typing import Any

import click
from rich.console import Console
from rich.table import Table

from guidegen.cli.terminal import answering, content_option, described, json_option, print_json, progress, quiet_option
from guidegen.errors import ContentError
from guidegen.evaluation import Segment, Sweep, Told
from guidegen.intake import draft_session, read_sweep
from guidegen.records import Accepted
from guidegen.sources import Entry, read_protections, store

_LOG = click.Path(path_type=Path)


@click.command("intake")
@click.argument("logs", nargs=-1, required=True, type=_LOG, metavar="LOG [LOG]")
@click.option("--mapping", "mappings", multiple=True, required=True, type=_LOG, help="Mapping of a log; once for each log, in the same order.")
@click.option("--unit", required=True, help="Unit that was on the bench, by its folder.")
@click.option("--date", "day", type=click.DateTime(["%Y-%m-%d"]), help="Day of the session, if the log does not tell it.")
@click.option("--sample", help="Name of the sample, if not that of the mapping.")
@click.option("--mains", type=click.FloatRange(min=0, min_open=True), help="Mains in V, if not that of the log or mapping.")
@click.option("--frequency", type=click.FloatRange(min=0, min_open=True), help="Frequency of the mains in Hz.")
@click.option("--ambient", type=float, help="Air in the room in °C.")
@click.option("--tested-by", help="Who stood at the bench.")
@click.option("--protections", type=_LOG, help="YAML list of protections; without it all are written as not tested.")
@click.option("--suffix", default="", help="Letter behind the day in the file's name, for a second session of a day.")
@click.option("--accept", "accepted", nargs=3, multiple=True, metavar="RULE FIELD REASON",
              help="Let an objection of the sense checks stand, with the reason; once for each.")
@click.option("--dry-run", is_flag=True, help="Show what would be written, and write nothing.")
@content_option
@json_option
@quiet_option
def command(*, content: Path, as_json: bool, quiet: bool, dry_run: bool, **asked: Any) -> None:
    """Turn one LOG of a load sweep, and one of a noise sweep if there is one, into a new session of a unit."""
    logs, mappings = asked["logs"], asked["mappings"]
    if len(logs) > 2 or len(logs) != len(mappings):
        raise click.UsageError(f"came {len(logs)} logs and {len(mappings)} mappings, expected one or two logs and a mapping for each")
    sweeps: tuple[Sweep, ...] = ()
    with answering():
        try:
            with progress(quiet=quiet) as report:
                pairs = zip(logs, mappings, strict=True)
                sweeps = tuple(read_sweep(content, asked["unit"], log, mapping, report=report) for log, mapping in pairs)
            if not as_json and not quiet:
                _print(sweeps)
            entry = draft_session(content, asked["unit"], sweeps, told=_told(content, asked), suffix=asked["suffix"])
        except ContentError as error:
            if not as_json:
                raise
            faults = [described(fault) for fault in error.faults]
            print_json({"file": None, "written": False, "faults": faults, "logs": [_document(sweep) for sweep in sweeps]})
            raise SystemExit(1) from error
        if not dry_run:
            store(content, entry)
    _answer(entry, sweeps, dry_run=dry_run, as_json=as_json, quiet=quiet)


def _told(content: Path, asked: dict[str, Any]) -> Told:
    day: datetime | None = asked["day"]
    protections: Path | None = asked["protections"]
    return Told(
        day=day.date() if day else None, sample=asked["sample"], mains_v=asked["mains"], frequency_hz=asked["frequency"],
        ambient_c=asked["ambient"], tested_by=asked["tested_by"],
        protections=read_protections(protections, content) if protections else (),
        accepted=tuple(Accepted(rule=rule, field=field, reason=reason) for rule, field, reason in asked["accepted"]),
    )


def _answer(entry: Entry, sweeps: tuple[Sweep, ...], *, dry_run: bool, as_json: bool, quiet: bool) -> None:
    """What was written, or would be."""
    if as_json:
        print_json({
            "file": entry.file, "written": not dry_run, "faults": [], "logs": [_document(sweep) for sweep in sweeps],
            **({"text": entry.text} if dry_run else {}),
        })
    elif dry_run:
        click.echo(f"{entry.file} would hold:\n\n{entry.text}", nl=False)
    elif not quiet:
        click.echo(f"{entry.file} written.")


def _document(sweep: Sweep) -> dict[str, Any]:
    told = sweep.provenance
    return {
        "log": told.log, "sha256": told.sha256, "mapping": told.mapping, "kind": sweep.mapping.kind,
        "rows_read": told.rows_read, "rows_used": told.rows_used,
        "segments": [_segment(one, number) for number, one in enumerate(sweep.segments, 1)],
    }


def _segment(one: Segment, number: int) -> dict[str, Any]:
    return {
        "segment": number, "starts_s": one.starts_s, "seconds": one.seconds, "rows": one.last - one.first + 1,
        "rows_used": one.used, "load_pct": one.load_pct, "state": one.state, "why": one.why,
        "means": [
            {"column": mean.column, "field": mean.field, "mean": mean.value, "uncertainty": mean.uncertainty,
             "written": mean.written, "n": mean.count}
            for mean in one.means
        ],
    }


def _print(sweeps: tuple[Sweep, ...]) -> None:
    console = Console()
    for sweep in sweeps:
        told = sweep.provenance
        title = f"{told.log}, {sweep.mapping.kind.replace('_', ' ')}: {told.rows_used} of {told.rows_read} rows used"
        table = Table(title=title, title_justify="left", box=None)
        for heading in ("Segment", "From, s", "Seconds", "Rows used", "Load, %", "Delivered, W", "u, W", "Steady?"):
            table.add_column(heading, justify="left" if heading == "Steady?" else "right")
        for number, one in enumerate(sweep.segments, 1):
            power = one.mean("delivered_power_w")
            table.add_row(
                str(number), f"{one.starts_s:.0f}", f"{one.seconds:.0f}", str(one.used),
                "" if one.state == "passing" else f"{one.load_pct:g}",
                f"{power.written:g}" if power else "", f"{power.uncertainty:.2g}" if power else "",
                {"steady": "yes", "passing": "passing"}.get(one.state, f"no: {one.why}"),
            )
        console.print(table)
