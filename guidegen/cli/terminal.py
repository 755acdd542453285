"""What all commands share: options, progress, and how faults are said."""

import json
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NoReturn

import click

from guidegen.errors import ContentError, Fault, GuidegenError

content_option = click.option(
    "--content", type=click.Path(path_type=Path), default=Path("content"), show_default=True,
    help="Folder with the records.",
)
output_option = click.option(
    "--output", type=click.Path(path_type=Path), default=Path("output"), show_default=True,
    help="Folder for the site.",
)
json_option = click.option("--json", "as_json", is_flag=True, help="Print a JSON document instead.")
quiet_option = click.option("--quiet", is_flag=True, help="Print no progress.")


@contextmanager
def progress(*, quiet: bool) -> Iterator[Callable[[str], None]]:
    """A function that is told each step; shown on standard error, and only where that is a terminal."""
    shown = sys.stderr.isatty() and not quiet

    def report(step: str) -> None:
        if shown:
            click.echo(f"\r\x1b[K{step} …", nl=False, err=True)

    try:
        yield report
    finally:
        if shown:
            click.echo("\r\x1b[K", nl=False, err=True)


@contextmanager
def answering() -> Iterator[None]:
    """Errors of the family become sentences on standard error and exit code 1."""
    try:
        yield
    except ContentError as error:
        print_faults(error.faults)
        count = len(error.faults)
        refuse(f"{count} {'fault' if count == 1 else 'faults'}; nothing was written")
    except GuidegenError as error:
        refuse(str(error))


def refuse(sentence: str) -> NoReturn:
    """Say why not, and leave with exit code 1."""
    click.echo(sentence, err=True)
    raise SystemExit(1)


def print_faults(faults: tuple[Fault, ...]) -> None:
    """Each fault in a sentence, with the line it stands on and a mark under the column."""
    for fault in faults:
        click.echo(fault.message, err=True)
        if fault.text:
            # What a damaged file holds must not steer the terminal.
            shown = "".join(char if char.isprintable() else " " for char in fault.text.rstrip()[:160])
            click.echo(f"    {shown}", err=True)
            if 0 < fault.column <= len(shown) + 1:
                click.echo(f"    {' ' * (fault.column - 1)}^", err=True)


def described(fault: Fault) -> dict[str, str | int]:
    """A fault as a part of a document."""
    return {
        "file": fault.origin.file, "line": fault.line, "column": fault.column, "field": fault.origin.field,
        "came": fault.came, "expected": fault.expected, "nearest": fault.nearest, "message": fault.message,
        "rule": fault.rule,
    }


def print_json(document: object) -> None:
    """A document on standard output; the same document is the same text."""
    click.echo(json.dumps(document, indent=2, ensure_ascii=False, sort_keys=False, allow_nan=False))
