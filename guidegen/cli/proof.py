"""``guidegen proof``: every fault at once, and what to look at again."""

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
    progress,
    quiet_option,
)
from guidegen.errors import ContentError
from guidegen.evaluation import AcceptedObjection
from guidegen.flow import let_stand, proof, warn


@click.command("proof")
@content_option
@json_option
@quiet_option
def command(*, content: Path, as_json: bool, quiet: bool) -> None:
    """List every fault in the content, each with its file, line, field and what was expected."""
    with answering(writes=False), progress(quiet=quiet) as report:
        try:
            assessment = proof(content, report=report)
        except ContentError as error:
            if not as_json:
                raise
            print_json(
                {
                    "faults": [described(fault) for fault in error.faults],
                    "warnings": [],
                    "accepted": [_let_stand(one) for one in let_stand(content)],
                }
            )
            raise SystemExit(1) from error
    library, accepted = assessment.library, assessment.sense.accepted
    warnings = warn(content, assessment)
    if as_json:
        print_json(
            {
                "faults": [],
                "warnings": [described(warning) for warning in warnings],
                "accepted": [_let_stand(one) for one in accepted],
            }
        )
    elif not quiet:
        click.echo(f"No faults in {len(library.units)} units and {len(library.sessions)} sessions.")
        if warnings:
            click.echo("To look at again, though it stops nothing:", err=True)
            print_faults(warnings)
        for one in accepted:
            said, reason = one.objection, one.accepted.reason
            click.echo(f"Accepted: {said.holder}, {one.accepted.field}: came {said.came}, expected {said.expected}. {reason}")


def _let_stand(one: AcceptedObjection) -> dict[str, Any]:
    said = one.objection
    return {
        "file": said.holder, "rule": said.rule, "field": one.accepted.field, "reason": one.accepted.reason,
        "came": said.came, "expected": said.expected,
    }
