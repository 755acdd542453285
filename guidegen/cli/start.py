"""``guidegen start``: a small guide to begin with."""

from pathlib import Path

import click

from guidegen.cli.terminal import answering, json_option, print_json, quiet_option
from guidegen.sources import begin


@click.command("start")
@click.argument("folder", type=click.Path(path_type=Path), metavar="DIR")
@json_option
@quiet_option
def command(*, folder: Path, as_json: bool, quiet: bool) -> None:
    """Put a small working guide into the new folder DIR: one wattage, three invented units, a policy, a log with its mapping."""
    with answering():
        files = begin(folder)
    if as_json:
        print_json({"folder": folder.as_posix(), "files": list(files)})
    elif not quiet:
        click.echo(f"{len(files)} files in {folder}; `cd {folder}`, then `guidegen publish`")
