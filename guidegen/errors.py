"""The family of errors, and the fault that an editor reads.

GuidegenError
├── ContentError        the content has faults; carries all of them
├── ThemeError          a sheet of the theme can't be rendered
├── PublicationError    the finished edition can't be put in place
└── RequestError        a command was asked for something that isn't there
"""

from dataclasses import dataclass
from difflib import get_close_matches

from guidegen.origins import Origin


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Fault:
    """One thing in the content that has to be put right, said to the person who wrote it."""

    origin: Origin
    """File and field."""
    line: int = 0
    """Line counted from 1; 0 where the fault belongs to the file as a whole."""
    column: int = 0
    """Column counted from 1; 0 where the fault belongs to the line as a whole."""
    came: str = ""
    """What stands there now."""
    expected: str = ""
    """What should stand there."""
    nearest: str = ""
    """The right name nearest to the one that came, or empty."""
    text: str = ""
    """The line as it stands in the file."""
    rule: str = "shape"
    """Which rule speaks."""

    @property
    def message(self) -> str:
        """The fault in one sentence.

        >>> Fault(origin=Origin("guide.yaml", ("titel",)), line=2, came="titel",
        ...       expected="a known field", nearest="title").message
        'guide.yaml:2, titel: came titel, expected a known field; did you mean title?'
        >>> Fault(origin=Origin("prices/ie.csv", (3, "price")), line=5, came="9,50", expected="9.50").message
        'prices/ie.csv:5, price: came 9,50, expected 9.50'
        """
        place = f"{self.origin.file}:{self.line}" if self.line else self.origin.file
        field = f", {words}" if (words := self._field()) else ""
        came = f"came {self.came}, " if self.came else ""
        hint = f"; did you mean {self.nearest}?" if self.nearest else ""
        return f"{place}{field}: {came}expected {self.expected}{hint}"

    def _field(self) -> str:
        """The field in words; of a table the column alone, since its row is the line, or the row where no line is known."""
        first, *rest = self.origin.path or ("",)
        if not isinstance(first, int) or not self.origin.file.endswith(".csv"):
            return self.origin.field
        return ", ".join((*(() if self.line else (f"row {first + 1} below the heading",)), *map(str, rest)))


class GuidegenError(Exception):
    """Anything that guidegen answers with a sentence instead of a traceback."""


class ContentError(GuidegenError):
    """The content has faults; nothing was published."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        self.faults = tuple(sorted(faults, key=lambda f: (f.origin.file, f.line, f.column, f.origin.field)))
        super().__init__("\n".join(fault.message for fault in self.faults))


class ThemeError(GuidegenError):
    """A sheet of the theme asks for something that isn't there, or is not well formed."""


class PublicationError(GuidegenError):
    """The edition is not fit to be put in place, or the place can't be written."""


class RequestError(GuidegenError):
    """A command was asked for a bracket, unit or file that does not exist."""


def nearest_name(name: str, known: tuple[str, ...]) -> str:
    """The known name nearest to ``name``, or an empty text. Two neighbouring characters exchanged are one slip, and come first.

    >>> nearest_name("efficency", ("efficiency", "ripple")), nearest_name("mesa-560", ("mesa-850", "mesa-650", "mesa-550"))
    ('efficiency', 'mesa-650')
    """
    exchanged = {f"{name[:i]}{name[i + 1]}{name[i]}{name[i + 2:]}" for i in range(len(name) - 1)}
    for one in known:
        if one in exchanged:
            return one
    found = get_close_matches(name, known, n=1, cutoff=0.6)
    return found[0] if found else ""


def unknown(kind: str, name: str, known: tuple[str, ...]) -> str:
    """The sentence that answers a name that nothing has.

    >>> unknown("bracket", "655", ("550", "650"))
    'no bracket 655; there are 550, 650; did you mean 650?'
    """
    nearest = nearest_name(name, known)
    hint = f"; did you mean {nearest}?" if nearest else ""
    return f"no {kind} {name}; there are {', '.join(known)}{hint}"
