"""``parts.yaml``: classes of PC parts with what they draw."""

from typing import Annotated, Literal

from annotated_types import MinLen
from pydantic import Strict

from guidegen.records.kinds import Format, Name, NotNegative, Positive, Text, Whole, record


@record
class PartClass:
    """A class of parts; figures are for one piece."""

    id: Name
    """Short name such as ``processor.mid``."""
    kind: Literal["processor", "graphics", "memory", "drive", "board", "fan", "pump", "usb", "other"]
    """What kind of part."""
    title: Text
    """Name in a sentence."""
    examples: Text
    """How a reader recognises it, without product names."""
    idle_w: NotNegative
    """At rest, W."""
    typical_w: NotNegative
    """In ordinary work, W."""
    sustained_w: Positive
    """Longest lasting full load (more than 1 s), W."""
    peak_w: Positive
    """Highest short peak, W."""
    peak_ms: NotNegative
    """How long a peak lasts, ms."""
    rail: Literal["12v", "5v", "3v3"]
    """Rail that carries most of it."""
    pcie_8: Whole = 0
    """8-pin graphics plugs needed."""
    pcie_16: Whole = 0
    """16-pin graphics plugs needed."""
    cpu_8: Whole = 0
    """8-pin processor plugs needed."""
    sata: Whole = 0
    """Drive plugs needed."""
    source: Text
    """Document, or ``common practice, no source``."""


@record
class Build:
    """An example of a whole computer."""

    id: Name
    """Short name."""
    title: Text
    """Name in a sentence."""
    story: Text
    """Who has such a computer and what for."""
    parts: Annotated[dict[str, Annotated[int, Strict()]], MinLen(1)]
    """How many of each part class."""


@record
class BuildRecord:
    """A file with one computer, as ``guidegen size --build`` reads it."""

    parts: Annotated[dict[str, Annotated[int, Strict()]], MinLen(1)]
    """How many of each part class."""


@record
class PartsRecord:
    """``parts.yaml``."""

    format: Format
    """Version of the record format: 1."""
    classes: Annotated[tuple[PartClass, ...], MinLen(1)]
    """Classes of parts."""
    rest_of_platform_w: Positive
    """Board, memory, one drive and fans of a median build, for quick sums, W."""
    rest_of_platform_source: Text
    """Where that figure comes from."""
    examples: tuple[Build, ...]
    """Worked examples on the sizing page."""
