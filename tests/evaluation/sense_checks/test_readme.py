"""The README names every rule in the rule's own words."""

import re
from pathlib import Path

from guidegen.evaluation import RULES
from guidegen.evaluation.sense_checks import NOTHING

README = Path(__file__).parents[3] / "README.md"
ROW = re.compile(r"^\| `(?P<name>[a-z0-9-]+)` \| (?P<looks_at>.+) \|$", re.MULTILINE)


def test_the_readme_has_the_rules_as_they_are() -> None:
    """Name and words, in order, and the one rule about ``accepted`` itself."""
    text = README.read_text(encoding="utf-8")
    table = text[text.index("| rule | what it objects to |"):]
    rows = [(row["name"], row["looks_at"]) for row in ROW.finditer(table[: table.index("\n\n")] + "\n")]

    assert [(rule.name, rule.looks_at) for rule in RULES] == rows[:-1]
    assert NOTHING == rows[-1][0]
