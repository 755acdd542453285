"""``guidegen publish``: the whole site, and one step back."""

import time
from importlib import import_module
from pathlib import Path

import click

from guidegen.cli.terminal import (
    Progress,
    answering,
    content_option,
    output_option,
    print_json,
    progress,
    quiet_option,
)
from guidegen.press import Press, Written, program_digest, step_back, still_standing


@click.command("publish")
@content_option
@output_option
@click.option("--fresh", "how", flag_value="fresh", help="Make everything anew; believe nothing that is remembered.")
@click.option("--undo", "how", flag_value="undo", help="Put the edition that stood before in place again.")
@click.option("--timings", "shown", flag_value="timings", help="Say how long each step took.")
@click.option("--json", "shown", flag_value="json", help="Print a JSON document instead.")
@quiet_option
def command(*, content: Path, output: Path, how: str | None, shown: str | None, quiet: bool) -> None:
    """Publish the whole site; on any fault the last good site stays as it is."""
    began = time.perf_counter()
    with answering(as_json=shown == "json"), progress(quiet=quiet, lines=True) as report:
        if how == "undo":
            words, written = "The edition before", _undone(output)
        else:
            words, written = _published(content, output, fresh=how == "fresh", report=report)
    seconds = time.perf_counter() - began
    if shown == "json":
        print_json(
            {
                "pages_written": written.pages_written, "pages_unchanged": written.pages_unchanged,
                "removed": written.removed, "seconds": round(seconds, 3),
                "steps": [{"step": step, "seconds": round(took, 3)} for step, took in report.timings()],
            }
        )
    elif not quiet:
        _say(words, written, output, seconds)
        for step, took in report.timings() if shown == "timings" else ():
            click.echo(f"{took:8.2f} s  {step}")
    for path in written.replaced:
        click.echo(f"{output / path} had been changed by hand and was written anew; `guidegen publish --undo` has what "
                   "stood there", err=True)


def _say(words: str, written: Written, output: Path, seconds: float) -> None:
    click.echo(f"{words}: {written.pages_written} files written, {written.pages_unchanged} unchanged, "
               f"{written.removed} removed in {seconds:.1f} s")
    click.echo(f"Open {output / 'index.html'}")


def _undone(output: Path) -> Written:
    press = Press.of(output)
    with press.held():
        return step_back(press)


def _published(content: Path, output: Path, *, fresh: bool, report: Progress) -> tuple[str, Written]:
    """What was published, in words, and what that came to.

    The flow brings all that computes and draws; it is imported only where something has changed.
    """
    standing = None if fresh else still_standing(content, content.parent / "themes", output, program_digest())
    if standing is not None:
        written = Written(pages_written=0, pages_unchanged=standing.files, removed=0)
        return f"{standing.units} units from {standing.sessions} sessions", written
    published = import_module("guidegen.flow").publish(content, output, report=report, fresh=fresh)
    return f"{len(published.library.units)} units from {len(published.library.sessions)} sessions", published.written
