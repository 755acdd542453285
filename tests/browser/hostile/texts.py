"""The texts that mean harm, read from ``tests/cases/hostile_texts.txt``."""

import re
from pathlib import Path

CASES = Path(__file__).parents[2] / "cases" / "hostile_texts.txt"
_REPEATED = re.compile(r"(?<!\\)\\\*([0-9]+)\(([^\n]*?)\)$")
_ESCAPE = re.compile(r"\\(\\|n|t|u[0-9a-f]{4}|U[0-9a-f]{8})")


def decoded(line: str) -> str:
    r"""The text that a line stands for.

    >>> decoded(r"a\u0041\n"), decoded(r"\*3(ab)"), decoded(r"\\u0041")
    ('aA\n', 'ababab', '\\u0041')
    """
    whole = _REPEATED.sub(lambda found: found[2] * int(found[1]), line)
    return _ESCAPE.sub(_character, whole)


def _character(found: re.Match[str]) -> str:
    short = {"\\": "\\", "n": "\n", "t": "\t"}
    return short.get(found[1]) or chr(int(found[1][1:], 16))


def texts() -> tuple[str, ...]:
    """Every text, in the order of the file."""
    lines = CASES.read_text(encoding="utf-8").split("\n")
    return tuple(decoded(line) for line in lines if line and not line.startswith("# "))
