"""``guidegen publish``: the whole site."""

import time
from pathlib import Path

import click

from guidegen.cli.terminal import (
    answering,
    content_option,
    json_option,
    output_option,
    print_json,
    progress,
    quiet_option,
)
from guidegen.flow import publish


@click.command("publish")
@content_option
@output_option
@json_option
@quiet_option
def command(*, content: Path, output: Path, as_json: bool, quiet: bool) -> None:
    """Publish the whole site; on any fault the last good site stays as it is."""
    began = time.perf_counter()
    with answering(), progress(quiet=quiet) as report:
        published = publish(content, output, report=report)
    seconds = time.perf_counter() - began
    written = published.written
    if as_json:
        print_json(
            {
                "pages_written": written.pages_written, "pages_unchanged": written.pages_unchanged,
                "removed": written.removed, "seconds": round(seconds, 3),
            }
        )
    elif not quiet:
        click.echo(
            f"{len(published.library.units)} units from {len(published.library.sessions)} sessions: "
            f"{written.pages_written} files written, {written.pages_unchanged} unchanged, {written.removed} removed "
            f"in {seconds:.1f} s"
        )
        click.echo(f"Open {output / 'index.html'}")
