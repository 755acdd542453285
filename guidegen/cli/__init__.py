"""The commands, one a module. They take arguments, talk to the terminal, and compute nothing."""

from guidegen.cli.program import main

__all__ = ["main"]
