"""``guidegen proof``: every fault at once."""

from pathlib import Path

import click

from guidegen.cli.terminal import answering, content_option, described, json_option, print_json, progress, quiet_option
from guidegen.errors import ContentError
from guidegen.flow import proof


@click.command("proof")
@content_option
@json_option
@quiet_option
def command(*, content: Path, as_json: bool, quiet: bool) -> None:
    """List every fault in the content, each with its file, line, field and what was expected."""
    with answering(), progress(quiet=quiet) as report:
        try:
            library = proof(content, report=report)
        except ContentError as error:
            if not as_json:
                raise
            print_json({"faults": [described(fault) for fault in error.faults], "accepted": []})
            raise SystemExit(1) from error
    accepted = [
        {"file": session.file, "rule": one.rule, "field": one.field, "reason": one.reason}
        for session in library.sessions
        for one in session.record.accepted
    ]
    if as_json:
        print_json({"faults": [], "accepted": accepted})
    elif not quiet:
        click.echo(f"No faults in {len(library.units)} units and {len(library.sessions)} sessions.")
