"""``guidegen freeze``: the guide kept for ever as an edition, and what was kept held against its hashes."""

from importlib import import_module
from pathlib import Path

import click

from guidegen.cli.terminal import answering, content_option, json_option, print_json, progress, quiet_option
from guidegen.records import EditionRecord, FrozenEdition
from guidegen.sources import verified


@click.command("freeze")
@click.argument("name", required=False)
@click.option("--verify", is_flag=True, help="Write nothing; hold the edition, or all of them, against the hashes taken when it was frozen.")
@content_option
@json_option
@quiet_option
def command(*, name: str | None, verify: bool, content: Path, as_json: bool, quiet: bool) -> None:
    """Keep the guide as it is now as the edition NAME, for ever: pages, data, records, versions, hashes.

    It stands in content/editions/NAME; `guidegen publish` puts it under archive/NAME/. What is frozen is never changed.
    """
    if name is None and not verify:
        raise click.UsageError("came no NAME, expected a name for the edition, such as 2026; or --verify")
    with answering(as_json=as_json), progress(quiet=quiet) as report:
        if verify:
            found: tuple[FrozenEdition, ...] = verified(content, name)
        else:
            record: EditionRecord = import_module("guidegen.flow").freeze(content, name, report=report)
            found = verified(content, name)
    if as_json:
        print_json({"editions": [_described(one) for one in found]})
    elif verify and not quiet:
        _say_verified(found)
    elif not quiet:
        click.echo(f"Edition {record.edition}, printing {record.printing}, frozen as {name}: {len(found[0].files)} files in "
                   f"{(content / found[0].file).parent}")
        click.echo(f"`guidegen publish` puts it under {record.public_address}")


def _say_verified(found: tuple[FrozenEdition, ...]) -> None:
    for one in found:
        click.echo(f"{one.record.name}: {len(one.files)} files as they were frozen")
    if not found:
        click.echo("No edition is frozen yet.")


def _described(one: FrozenEdition) -> dict[str, str | int]:
    record = one.record
    return {
        "name": record.name, "edition": record.edition, "printing": record.printing, "date": record.date.isoformat(),
        "address": record.public_address, "files": len(one.files), "build": record.build,
    }
