"""What the preview shows now: the state that the server reads and that each round of publication sets."""

import secrets
from dataclasses import dataclass, field
from pathlib import Path


@dataclass(slots=True)
class Rounds:
    """The rounds of one preview."""

    folder: Path
    """Where the pages lie."""
    state: int = 0
    """Counts what was shown, so that a page knows when to load itself again."""
    faults: bytes = b""
    """What stands before every page; empty where nothing has to be put right."""
    desk: bytes = b""
    """The editor's desk; empty before the first good round."""
    desks: int = 0
    """Counts what was shown as the desk, which follows the pages."""
    token: str = field(default_factory=lambda: secrets.token_urlsafe(16))
    """Known to pages of this preview alone."""

    def good(self) -> None:
        """A round has gone well: its pages are shown, and its desk follows."""
        self.faults = b""
        self.state += 1

    def laid(self, desk: str) -> None:
        """The desk of the round is shown."""
        self.desk = desk.encode()
        self.desks += 1

    def bad(self, page: bytes) -> None:
        """Something has to be put right: it is shown in place of the pages."""
        if page != self.faults:
            self.faults = page
            self.state += 1
            self.desks += 1
