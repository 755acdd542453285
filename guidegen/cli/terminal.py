"""What all commands share: options, progress, and how faults are said."""

import json
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import pairwise
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


class Progress:
    """Tells what is being done: live on a terminal, a plain line a step in a log; and keeps how long each step took."""

    def __init__(self, *, live: bool, lines: bool) -> None:
        """``live`` where a terminal looks on, ``lines`` where each step is to be a line of its own."""
        self._live, self._lines = live, lines
        self._steps: list[tuple[str, float]] = []

    def __call__(self, step: str, done: int = 0, total: int = 0) -> None:
        """A step has begun, or has come so far."""
        new = not self._steps or self._steps[-1][0] != step
        if new:
            self._steps.append((step, time.perf_counter()))
        if self._live:
            far = f", {done} of {total}" if total else ""
            click.echo(f"\r\x1b[K{step}{far} …", nl=False, err=True)
        elif self._lines and new:
            click.echo(step, err=True)

    def clear(self) -> None:
        """Leave the terminal as it was."""
        if self._live:
            click.echo("\r\x1b[K", nl=False, err=True)

    def timings(self) -> list[tuple[str, float]]:
        """Each step with its seconds, the last one until now; none where nothing had to be done."""
        begun = [*(began for _, began in self._steps), time.perf_counter()]
        return [(step, end - began) for (step, _), (began, end) in zip(self._steps, pairwise(begun), strict=True)]


@contextmanager
def progress(*, quiet: bool, lines: bool = False) -> Iterator[Progress]:
    """What is told each step; on standard error, live where that is a terminal, else in lines where these are wanted."""
    live = sys.stderr.isatty() and not quiet
    told = Progress(live=live, lines=lines and not live and not quiet)
    try:
        yield told
    finally:
        told.clear()


@contextmanager
def answering(*, writes: bool = True, as_json: bool = False) -> Iterator[None]:
    """Errors of the family become sentences on standard error and exit code 1; ``writes``: the command would have written.

    With ``as_json`` faults of the content are a document on standard output instead, ``{"faults": [...]}``.
    """
    try:
        yield
    except ContentError as error:
        if as_json:
            print_json({"faults": [described(fault) for fault in error.faults]})
            raise SystemExit(1) from error
        print_faults(error.faults)
        count = len(error.faults)
        refuse(f"{count} {'fault' if count == 1 else 'faults'}{'; nothing was written' if writes else ''}")
    except GuidegenError as error:
        refuse(str(error))


def refuse(sentence: str) -> NoReturn:
    """Say why not, and leave with exit code 1."""
    click.echo(sentence, err=True)
    raise SystemExit(1)


def print_faults(faults: tuple[Fault, ...]) -> None:
    """Each fault in a sentence, with the line it stands on and a mark under the column."""
    for fault in faults:
        click.echo(_harmless(fault.message), err=True)
        if fault.text:
            shown = _harmless(fault.text.rstrip()[:160])
            click.echo(f"    {shown}", err=True)
            if 0 < fault.column <= len(shown) + 1:
                click.echo(f"    {' ' * (fault.column - 1)}^", err=True)


def _harmless(text: str) -> str:
    """The text with a blank for whatever can't be seen: what a file holds, or is called, must not steer the terminal."""
    return "".join(char if char.isprintable() else " " for char in text)


def described(fault: Fault) -> dict[str, str | int]:
    """A fault as a part of a document."""
    return {
        "file": fault.origin.file, "line": fault.line, "column": fault.column, "field": fault.origin.field,
        "came": fault.came, "expected": fault.expected, "nearest": fault.nearest, "message": fault.message,
        "rule": fault.rule,
    }


def print_json(document: object) -> None:
    """A document on standard output; the same document is the same text.

    A file's name may hold bytes that are no text; they are written as JSON escapes (RFC 8259, 8.2).
    """
    text = json.dumps(document, indent=2, ensure_ascii=False, sort_keys=False, allow_nan=False)
    click.echo(text.encode("utf-8", "backslashreplace").decode())
