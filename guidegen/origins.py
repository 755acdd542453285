"""Where a value came from: a file of the content and the path of a field in it."""

from dataclasses import dataclass
from functools import lru_cache

Step = str | int
"""One step of a path into a record: a field's name, or the place in a list counted from 0."""


@dataclass(frozen=True, slots=True, order=True)
class Origin:
    """A place in the content; ``sources`` finds its line when somebody asks."""

    file: str
    """File below the content folder, with ``/`` between folders."""
    path: tuple[Step, ...] = ()
    """Way from the top of the record to the field; empty for the whole file."""

    def at(self, *steps: Step) -> "Origin":
        """The place of a field below this one."""
        return Origin(self.file, (*self.path, *steps))

    @property
    def field(self) -> str:
        """The path as a person would write it.

        >>> Origin("units/a/unit.yaml", ("rails", 0, "rated_current_a")).field
        'rails[0].rated_current_a'
        """
        return _written(self.path)


@lru_cache(maxsize=8192)
def _written(path: tuple[Step, ...]) -> str:
    """A path in words; the records of all units have the same fields."""
    words = ""
    for step in path:
        words += f"[{step}]" if isinstance(step, int) else f".{step}" if words else step
    return words
