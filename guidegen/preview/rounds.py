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
    token: str = field(default_factory=lambda: secrets.token_urlsafe(16))
    """Known to pages of this preview alone."""

    def good(self, desk: str) -> None:
        """A round has gone well: pages and desk are shown."""
        self.desk, self.faults = desk.encode(), b""
        self.state += 1

    def bad(self, page: bytes) -> None:
        """Something has to be put right: it is shown in place of the pages."""
        if page != self.faults:
            self.faults = page
            self.state += 1
