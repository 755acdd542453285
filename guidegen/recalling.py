"""What was made before of the same things, so that it need not be made again: asked for here, kept by ``press``."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any, Protocol, TypeVar

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Wanted:
    """A value that will be asked for."""

    shelf: str
    """What is read and kept together; a few values of one shelf are made by one process, in the order given."""
    key: str
    """Everything that it is made of."""
    make: Callable[[], Any]
    """Makes it."""


class Recall(Protocol):
    """Asked for a value by everything that it was made of."""

    def __call__(self, shelf: str, key: str, make: Callable[[], T], /) -> T:
        """What ``make`` gave for this key before, or gives now; ``shelf`` is what is read and kept together."""

    def apart(self, key: str, make: Callable[[], T], /) -> T:
        """The same for one of the few values that any process may need: kept by itself, also by a process that shares in the work."""

    def lies_apart(self) -> bool:
        """Whether there is any such value."""

    def ahead(self, wanted: Iterable[Wanted], /) -> None:
        """Told what will be asked for, so that what must be made may be made by several processes at once."""

    def done(self, shelf: str, /) -> None:
        """Told that nothing more will be asked for of a shelf: it may be put away."""


class Anew:
    """Nothing is remembered: everything is made when it is asked for.

    >>> Anew()("sums", "1 + 1", lambda: 1 + 1)
    2
    """

    def __call__(self, _shelf: str, _key: str, make: Callable[[], T], /) -> T:
        """What ``make`` gives now."""
        return make()

    def apart(self, _key: str, make: Callable[[], T], /) -> T:
        """What ``make`` gives now."""
        return make()

    def lies_apart(self) -> bool:
        """As if there were: nothing is made ahead."""
        return True

    def ahead(self, wanted: Iterable[Wanted], /) -> None:
        """Nothing: what would be made could not be kept."""

    def done(self, _shelf: str, /) -> None:
        """Nothing: there is none."""


anew = Anew()
"""For who remembers nothing."""
