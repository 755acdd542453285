"""``guidegen schema``: what a record may hold, for editors that complete and check while one types."""

import click

from guidegen.cli.terminal import print_json
from guidegen.errors import RequestError
from guidegen.sources import KINDS, schema


@click.command("schema")
@click.argument("kind", required=False)
def command(*, kind: str | None) -> None:
    """Print the JSON Schema of a KIND of record; without one, list the kinds."""
    if kind is None:
        click.echo("\n".join(KINDS))
        return
    try:
        document = schema(kind)
    except RequestError as error:
        raise click.UsageError(str(error)) from error
    print_json(document)
