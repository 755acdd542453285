"""``guidegen rundown``: what to say, when to show which picture, how long it takes, and where each number comes from."""

from dataclasses import asdict
from pathlib import Path
from typing import Any

import click

from guidegen.cli.asking import brackets_asked_for
from guidegen.cli.terminal import answering, content_option, json_option, print_json, progress, quiet_option
from guidegen.flow import evaluate_content, hand_out_rundown
from guidegen.presentation import USUAL_WORDS_PER_MINUTE, Rundown, rundown_markdown, rundown_of


@click.command("rundown")
@click.argument("bracket", required=False)
@click.option("--region", help="Region whose prices are told; the home region if left out.")
@click.option("--to", "folder", type=click.Path(path_type=Path, file_okay=False), metavar="DIR",
              help="Write Markdown, a sheet to print and the pictures there.")
@click.option("--words-per-minute", type=click.IntRange(60, 400), default=USUAL_WORDS_PER_MINUTE, show_default=True,
              help="How fast it is read.")
@content_option
@json_option
@quiet_option
def command(*, bracket: str | None, content: Path, as_json: bool, quiet: bool, **asked: Any) -> None:
    """Write what to say when the guide, or one bracket, is read aloud; Markdown on standard output without --to."""
    folder: Path | None = asked["folder"]
    with answering(writes=folder is not None, as_json=as_json), progress(quiet=quiet) as report:
        assessment = evaluate_content(content, report=report)
        brackets = brackets_asked_for(assessment, bracket, asked["region"])
        rundown = rundown_of(assessment, brackets, words_per_minute=asked["words_per_minute"])
        report("drawing pictures" if folder else "writing")
        written = hand_out_rundown(rundown, assessment, brackets, content=content, folder=folder) if folder else ()
    if as_json:
        print_json(_document(rundown, written))
    elif folder:
        click.echo(f"{len(written)} files in {folder}; open {folder / 'rundown.html'} to print it")
    else:
        click.echo(rundown_markdown(rundown), nl=False)


def _document(rundown: Rundown, written: tuple[Path, ...]) -> dict[str, Any]:
    """The rundown with its times, as a document."""
    told = asdict(rundown)
    for one, script in zip(told["brackets"], rundown.brackets, strict=True):
        one |= {"words": script.words, "seconds": rundown.seconds_of(script.words)}
    return {**told, "words": rundown.words, "seconds": rundown.seconds, "files": [path.as_posix() for path in written]}
