"""A row of things that are computed when somebody looks at them, each once."""

from collections.abc import Callable, Iterator, Sequence
from functools import cache
from typing import Generic, TypeVar, overload

T_co = TypeVar("T_co", covariant=True)


class Lazily(Sequence[T_co], Generic[T_co]):
    """Things by their places and names; who looks at one waits for that one alone.

    >>> squares = Lazily({"two": lambda: 2 * 2, "three": lambda: 3 * 3})
    >>> squares.named("three"), squares.named("four"), list(squares[1:]), squares.names
    (9, None, [9], ('two', 'three'))
    """

    def __init__(self, makers: dict[str, Callable[[], T_co]], *, kept: bool = False) -> None:
        """``makers`` give the things by their names; ``kept`` where they remember what they gave."""
        self._makers = makers if kept else {name: cache(make) for name, make in makers.items()}

    @property
    def names(self) -> tuple[str, ...]:
        """The names, in their order; nothing is computed."""
        return tuple(self._makers)

    def named(self, name: str) -> T_co | None:
        """The thing of this name, or nothing."""
        return self._makers[name]() if name in self._makers else None

    def has(self, name: str) -> bool:
        """Whether there is a thing of this name."""
        return name in self._makers

    def among(self, names: tuple[str, ...]) -> "Lazily[T_co]":
        """Those of these names."""
        return Lazily({name: self._makers[name] for name in names if name in self._makers}, kept=True)

    def joined(self, others: "Lazily[T_co]") -> "Lazily[T_co]":
        """These and others, in the order of their names; where both have a name, the others' thing."""
        return Lazily(dict(sorted((self._makers | others._makers).items())), kept=True)  # noqa: SLF001 - one of its own kind

    def __len__(self) -> int:
        return len(self._makers)

    def __iter__(self) -> Iterator[T_co]:
        return (make() for make in self._makers.values())

    @overload
    def __getitem__(self, place: int) -> T_co: ...
    @overload
    def __getitem__(self, place: slice) -> "Lazily[T_co]": ...
    def __getitem__(self, place: int | slice) -> "T_co | Lazily[T_co]":
        names = self.names[place]
        return self._makers[names]() if isinstance(names, str) else self.among(names)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Sequence) and tuple(self) == tuple(other)

    def __hash__(self) -> int:
        return hash(self.names)
