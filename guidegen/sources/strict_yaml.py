"""YAML as this guide accepts it: one document of plain lists and groups, nothing repeated, nothing surprising.

The parser's events are turned into values in one pass. Places of fields are kept only when somebody asks for them,
because a thousand good files need none.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import yaml

from guidegen.errors import Fault
from guidegen.origins import Origin, Step
from guidegen.sources.documents import MOST_FAULTS, control_in, line_text, lines_of, within
from guidegen.sources.scalars import Refused, plain_value, without_comma
from guidegen.sources.syntax import syntax_fault

DEEPEST = 20
"""Groups and lists inside each other; a record needs six."""

_BEHIND_COMMA = re.compile(r"[0-9]+(\.[0-9]+)?")
"""What stands behind a comma in a number, which braces make a field of its own."""
# libyaml's parser where it was built in (as in all wheels), otherwise the slower one in Python.
_Parser: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True, slots=True)
class Place:
    """Where a field stands; lines and columns counted from 1."""

    line: int
    """Line of the value; of the field's name where the value is a group or list."""
    column: int
    """Column of the same."""
    key_line: int
    """Line of the field's name, or of the item of a list."""
    key_column: int
    """Column of the same."""
    raw: str
    """The value as written, or what kind of collection it is."""
    scalar: bool = True
    """Whether it is a single value."""


Places = dict[tuple[Step, ...], Place]
"""Places by the way from the top of the record."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What a file of YAML says."""

    value: object
    """Groups as ``dict``, lists as ``list``; nothing where the file can't be parsed."""
    faults: tuple[Fault, ...]
    """What had to be refused."""
    parsed: bool
    """Whether the file could be read to its end."""


class _Stop(Exception):  # noqa: N818
    """Nothing below this point can be trusted."""


class _Dropped:
    """Key under which the value of a refused key is put until its group ends."""


_Key = str | _Dropped
_Group = dict[_Key, object]


class _Build:
    """A record under construction, driven by the parser's events."""

    __slots__ = ("container", "faults", "file", "key", "key_mark", "lines", "parents", "places", "text", "top")

    def __init__(self, file: str, text: str, places: Places | None) -> None:
        self.file = file
        self.text = text
        self.lines: list[str] | None = None
        self.places = places
        self.faults: list[Fault] = []
        self.top: list[object] = []
        self.container: _Group | list[object] = self.top
        self.key: _Key | None = None
        self.key_mark: Any | None = None
        self.parents: list[tuple[_Group | list[object], _Key | None, Any]] = []

    def path(self) -> tuple[Step, ...]:
        """The way to the value that comes next."""
        frames = [*self.parents, (self.container, self.key, self.key_mark)][1:]
        steps = (key if isinstance(held, dict) else len(held) for held, key, _ in frames)
        return tuple(step for step in steps if isinstance(step, str | int))

    def fault(self, mark: Any, *, came: str, expected: str) -> None:
        """Notes a fault at the present path."""
        if len(self.faults) >= MOST_FAULTS:
            raise _Stop
        if self.lines is None:
            self.lines = lines_of(self.text)
        line, column = within(self.lines, mark.line + 1, mark.column + 1)
        self.faults.append(
            Fault(
                origin=Origin(self.file, self.path()), line=line, column=column, came=came, expected=expected,
                text=line_text(self.lines, line), rule="yaml",
            )
        )

    def put(self, value: object) -> None:
        """Stores a value under the pending key, or at the end of the list."""
        container = self.container
        if type(container) is dict:
            assert self.key is not None
            container[self.key] = value
            self.key = None
        else:
            assert type(container) is list
            container.append(value)

    def note(self, mark: Any, raw: str, *, collection: bool = False) -> None:
        """Keeps the place of the value that comes next."""
        if self.places is None or isinstance(self.key, _Dropped):
            return
        key = self.key_mark if type(self.container) is dict and self.key_mark is not None else mark
        at = key if collection else mark
        self.places.setdefault(
            self.path(), Place(at.line + 1, at.column + 1, key.line + 1, key.column + 1, raw, scalar=not collection)
        )

    def scalar(self, event: Any) -> None:
        """A word, a number, or a quoted text: a key or a value."""
        if self.key is None and type(self.container) is dict:
            self.take_key(event)
            return
        plain = event.implicit[0]
        value: object = plain_value(event.value) if plain else event.value
        if event.anchor is not None or event.tag is not None:
            self.refuse_node(event)
        elif type(value) is Refused:
            self.refuse_word(event, value)
            value = event.value
        elif not plain and (control := control_in(event.value)):
            self.fault(event.start_mark, came=control, expected="text without control characters")
        if self.places is not None:
            self.note(event.start_mark, event.value if plain else f'"{event.value}"')
        self.put(value)

    def take_key(self, event: Any) -> None:
        """The name of a field; a second one of the same name is refused and its value dropped."""
        name = event.value
        self.key_mark = event.start_mark
        if event.anchor is not None or event.tag is not None:
            self.refuse_node(event)
        self.key = name
        assert type(self.container) is dict
        if name in self.container:
            self.fault(event.start_mark, came=f"{name} a second time", expected="each name once in a group")
        elif name == "<<" and event.implicit[0]:
            self.fault(event.start_mark, came="the merge key <<", expected="the fields written out")
        elif not name:
            self.fault(event.start_mark, came="a field without a name", expected="a name before the colon")
        else:
            return
        self.key = _Dropped()

    def refuse_word(self, event: Any, refused: Refused) -> None:
        """An unquoted word that would be read as something else."""
        came, expected = event.value or "nothing", refused.expected
        held = list(self.container.values()) if type(self.container) is dict else []
        whole = _before_comma(held[-1]) if held else ""
        if not event.value and isinstance(self.key, str) and _BEHIND_COMMA.fullmatch(self.key) and whole:
            came, expected = f"{whole},{self.key}", without_comma(whole, self.key)
            assert type(self.container) is dict
            self.key = list(self.container)[-1]
            self.fault(event.start_mark, came=came, expected=expected)
            self.key = _Dropped()
            return
        self.fault(event.start_mark, came=came, expected=expected)

    def refuse_node(self, event: Any) -> None:
        """An anchor or a tag."""
        if event.anchor is not None:
            expected = "the value written out each time, or quotes around text that begins with &"
            self.fault(event.start_mark, came=f"the anchor &{event.anchor}", expected=expected)
        else:
            expected = "the bare value, or quotes around text that begins with !"
            self.fault(event.start_mark, came=f"the tag {_tag(event.tag)}", expected=expected)

    def alias(self, event: Any) -> None:
        """A reference to an anchor."""
        expected = "the value written out, or quotes around text that begins with *"
        if self.key is None and type(self.container) is dict:
            self.fault(event.start_mark, came=f"the alias *{event.anchor} as a field's name", expected=expected)
            self.key = _Dropped()
            return
        self.fault(event.start_mark, came=f"the alias *{event.anchor}", expected=expected)
        self.note(event.start_mark, f"*{event.anchor}")
        self.put(None)

    def open(self, event: Any, made: _Group | list[object]) -> None:
        """A group or list begins."""
        if self.key is None and type(self.container) is dict:
            expected = "a plain word before the colon, or quotes around text that begins with a brace"
            self.fault(event.start_mark, came="a group or list as a field's name", expected=expected)
            raise _Stop
        if event.anchor is not None or event.tag is not None:
            self.refuse_node(event)
        if len(self.parents) >= DEEPEST:
            came = f"more than {DEEPEST} groups or lists inside each other"
            self.fault(event.start_mark, came=came, expected="the fields of the record")
            raise _Stop
        self.note(event.start_mark, "a list" if type(made) is list else "a group of fields", collection=True)
        self.parents.append((self.container, self.key, self.key_mark))
        self.container, self.key = made, None

    def close(self, _event: Any) -> None:
        """A group or list ends."""
        made = self.container
        if self.faults and type(made) is dict:
            for key in [key for key in made if type(key) is not str]:
                del made[key]
        self.container, self.key, self.key_mark = self.parents.pop()
        self.put(made)

    def document(self, event: Any) -> None:
        """A document begins; there may be one."""
        if self.top:
            self.fault(event.start_mark, came="a second document", expected="one document a file")
            raise _Stop
        if event.version or event.tags:
            self.fault(event.start_mark, came="a directive", expected="the record at once")


def _before_comma(value: object) -> str:
    """What stood before the comma of a number in braces, where the value may be that: a whole number, or one with a point between thousands."""
    if type(value) is float and round(value, 3) == value and abs(value) < 1000:
        return f"{value:.3f}"
    return str(value) if type(value) is int else ""


def _tag(tag: str | None) -> str:
    """A tag as it was written."""
    return str(tag).replace("tag:yaml.org,2002:", "!!")


def _nothing(_build: _Build, _event: Any) -> None:
    """Some events say nothing new."""


_ON: dict[type, Callable[[_Build, Any], None]] = {
    yaml.ScalarEvent: _Build.scalar,
    yaml.AliasEvent: _Build.alias,
    yaml.MappingStartEvent: lambda build, event: build.open(event, {}),
    yaml.SequenceStartEvent: lambda build, event: build.open(event, []),
    yaml.MappingEndEvent: _Build.close,
    yaml.SequenceEndEvent: _Build.close,
    yaml.DocumentStartEvent: _Build.document,
    yaml.DocumentEndEvent: _nothing,
    yaml.StreamStartEvent: _nothing,
    yaml.StreamEndEvent: _nothing,
}


def read_yaml(file: str, text: str, *, places: Places | None = None) -> Reading:
    r"""What a text of YAML says; fills ``places`` where it is given.

    >>> read_yaml("parts.yaml", "format: 1\nfan: {watts: 2.5}").value
    {'format': 1, 'fan': {'watts': 2.5}}
    """
    build = _Build(file, text, places)
    parser = _Parser(text)
    try:
        while (event := parser.get_event()) is not None:
            _ON[type(event)](build, event)
    except yaml.YAMLError as error:
        return Reading(None, (*build.faults, syntax_fault(file, text, error)), parsed=False)
    except _Stop:
        return Reading(None, tuple(build.faults), parsed=False)
    return Reading(build.top[0] if build.top else None, tuple(build.faults), parsed=True)
