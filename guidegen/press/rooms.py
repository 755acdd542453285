"""The press beside the published folder: where the next edition is made ready and the last one kept.

For a guide published into ``output`` it is the hidden folder ``.output.press`` beside it, on the same file system, so
that an edition is put in place by a change of names. In it:

- ``building/``: an edition that is being made; worthless after a run that was cut short.
- ``ready/``: a whole edition, about to change places with the published folder.
- ``previous/``: the edition that was published before, for one step back.
- ``spare/``: the one before that, out of which the next ``building/`` is made; worthless otherwise.
- ``exchange.json``: the build that is to stand in the published folder, from just before the exchange to just after.
"""

import json
import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Self

from filelock import FileLock, Timeout

from guidegen.errors import PublicationError
from guidegen.press.exchanging import ASIDE, exchange
from guidegen.press.manifests import Manifest
from guidegen.press.memory import APART, DRAFT

PATIENCE_S = 5.0
"""How long a second command waits for the first."""


@dataclass(frozen=True, slots=True)
class Press:
    """Places of a published folder and of what stands beside it."""

    output: Path
    """The published folder."""

    @classmethod
    def of(cls, output: Path) -> Self:
        """The press of a published folder; a link is followed first, so that both stand on the same file system."""
        return cls(Path(os.path.realpath(output)))

    @property
    def room(self) -> Path:
        """The hidden folder beside the published one."""
        return self.output.with_name(f".{self.output.name}.press")

    @property
    def building(self) -> Path:
        """An edition that is being made."""
        return self.room / "building"

    @property
    def ready(self) -> Path:
        """A whole edition about to be put in place."""
        return self.room / "ready"

    @property
    def previous(self) -> Path:
        """The edition published before."""
        return self.room / "previous"

    @property
    def spare(self) -> Path:
        """The edition before the previous one."""
        return self.room / "spare"

    @property
    def note(self) -> Path:
        """What the exchange is about to do."""
        return self.room / "exchange.json"

    @contextmanager
    def held(self) -> Iterator[None]:
        """The press to oneself, put in order; raises ``PublicationError`` where another command holds it.

        The lock belongs to the process: the system lets go of it when the process ends, however it ends.
        """
        try:
            self._refuse_misplaced()
            self.room.mkdir(parents=True, exist_ok=True)
            with FileLock(self.room / "lock", timeout=PATIENCE_S):
                holder = self.room / "holder"
                holder.write_text(f"{os.getpid()}\n", encoding="ascii")
                try:
                    self._recover()
                    yield
                finally:
                    shutil.rmtree(self.building, ignore_errors=True)
                    holder.unlink(missing_ok=True)
        except Timeout as error:
            raise PublicationError(f"{self.output}: came another guidegen at work there{self._holder()}, expected to be the "
                                   "only one; try again when it is done") from error
        except OSError as error:
            raise PublicationError(f"{error.filename or self.output}: came {error.strerror or error}, expected to write there; "
                                   "what was published stands as it was") from error

    def _holder(self) -> str:
        try:
            return f" (process {int((self.room / 'holder').read_text(encoding='ascii'))})"
        except (OSError, ValueError):
            return ""

    def _refuse_misplaced(self) -> None:
        """A folder that is a file system of its own can't change places with another."""
        if self.output.exists() and not self.output.is_dir():
            raise PublicationError(f"{self.output}: came a file, expected a folder or nothing")
        if self.output.is_dir() and self.output.stat().st_dev != self.output.parent.stat().st_dev:
            raise PublicationError(f"{self.output}: came a file system of its own, expected a folder on one, such as "
                                   f"{self.output / 'site'}; an edition is put in place by a change of names")

    def put_in_place(self, stands: Callable[[], None] = lambda: None) -> None:
        """The edition in ``ready`` becomes the published one, and the published one ``previous``; ``stands`` is called between."""
        if not self.output.exists():
            self.ready.rename(self.output)
            stands()
            return
        self.note.write_text(json.dumps({"build": Manifest.read(self.ready).build}), encoding="ascii")
        exchange(self.output, self.ready)
        stands()
        self._keep_previous()

    def _keep_previous(self) -> None:
        if self.previous.exists():
            shutil.rmtree(self.spare, ignore_errors=True)
            self.previous.rename(self.spare)
        self.ready.rename(self.previous)
        self.note.unlink(missing_ok=True)

    def _recover(self) -> None:
        """Put in order what a run left that was cut short: a whole edition always stands in the published folder."""
        aside = self.ready.with_name(self.ready.name + ASIDE)
        if aside.exists():
            if not self.output.exists():
                self.ready.rename(self.output)
            aside.rename(self.ready)
        if self.note.exists() and self.ready.exists() and self._noted() == Manifest.read(self.output).build:
            self._keep_previous()
        self.note.unlink(missing_ok=True)
        for left in (self.building, self.ready):
            shutil.rmtree(left, ignore_errors=True)
        for draft in (*self.room.glob(f"*{DRAFT}"), *self.room.glob(f"{APART}*/*{DRAFT}")):
            draft.unlink()

    def _noted(self) -> str | None:
        try:
            return str(json.loads(self.note.read_bytes())["build"])
        except (ValueError, KeyError, TypeError, RecursionError):
            return None
