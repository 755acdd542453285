"""The program ``guidegen``: its commands, loaded when they are called."""

from importlib import import_module

import click

COMMANDS = {
    "start": "Put a small guide to begin with into a new folder.",
    "publish": "Publish the whole site into output/.",
    "proof": "List every fault in the content.",
    "rank": "Show the ranking of all brackets, or of one.",
    "changes": "Say what this content changes against another, and why.",
    "freeze": "Keep the guide for ever as an edition, or verify what was kept.",
    "size": "Say how many watts a computer needs, and which units fit.",
    "preview": "Show the guide on this machine while it is edited, with the editor's desk.",
    "rundown": "Write what to say when the guide is read aloud.",
    "intake": "Turn a bench's log into a new session record.",
    "prices": "Put the rows of a price table behind those of a region.",
    "schema": "Print the JSON Schema of a kind of record.",
}
"""Commands with the sentence that the help page says of each; a module of the same name holds each."""


class LazyGroup(click.Group):
    """A group whose commands are imported when they are called, so that help is there at once."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names of the commands, in the order in which an editor meets them."""
        del ctx
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of this name, or nothing."""
        del ctx
        if cmd_name not in COMMANDS:
            return None
        command = import_module(f"guidegen.cli.{cmd_name}").command
        if not isinstance(command, click.Command):
            raise TypeError(f"guidegen.cli.{cmd_name}.command is a {type(command).__name__}, not a command")
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The list of commands, without importing any."""
        del ctx
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.command(cls=LazyGroup, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="guidegen")
def main() -> None:
    """Turn a power-supply lab's bench records into a ranked, readable buying guide."""
