"""What was tried against the program, counted over all workers: faults, kills, hostile inputs, edits."""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping

import pytest

PROPERTY, FIGURE = "tried", "figure"
"""Names under which a test's report carries what it tried, and what it measured."""


class Tally:
    """Counts what one test tries; what gets through fails the test."""

    def __init__(self, note: Callable[[str, object], None]) -> None:
        """``note`` puts a property into the report of the test."""
        self._note = note
        self._counted: dict[str, list[object]] = {}

    def tried(self, what: str, count: int = 1) -> None:
        """So many more are tried; said before the trial, so that a failure counts, too."""
        if what not in self._counted:
            self._counted[what] = [what, 0]
            self._note(PROPERTY, self._counted[what])
        before = self._counted[what][1]
        assert isinstance(before, int)
        self._counted[what][1] = before + count


def tried_in(reports: Mapping[str, Iterable[object]]) -> tuple[Counter[str], Counter[str]]:
    """What was tried in all reports of tests, and in how many tests something got through, by what it was."""
    tried, through = Counter[str](), Counter[str]()
    for outcome in ("passed", "failed"):
        for report in reports.get(outcome, ()):
            if not isinstance(report, pytest.TestReport) or report.when != "call":
                continue
            for name, value in report.user_properties:
                if name == PROPERTY and isinstance(value, list):
                    tried[value[0]] += value[1]
                    through[value[0]] += outcome == "failed"
    return tried, through


def measured_in(reports: Mapping[str, Iterable[object]]) -> tuple[str, ...]:
    """What was measured in all reports of tests, a line a figure."""
    return tuple(
        str(value) for report in reports.get("passed", ()) if isinstance(report, pytest.TestReport) and report.when == "call"
        for name, value in report.user_properties if name == FIGURE
    )


def lines_of(tried: Counter[str], through: Counter[str]) -> tuple[str, ...]:
    """The table that a long run ends with.

    >>> lines_of(Counter({"edits": 12_000}), Counter())
    ('tried      got through', ' 12000                0  edits')
    """
    rows = (f"{tried[what]:6} {through[what]:16}  {what}" for what in sorted(tried))
    return ("tried      got through", *rows)
