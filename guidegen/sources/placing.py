"""Faults put in their place: line, column and what stands there, looked up only when a fault is to be shown."""

from dataclasses import replace
from pathlib import Path

from guidegen.errors import Fault
from guidegen.origins import Origin, Step
from guidegen.sources.documents import LARGEST_TABLE, line_text, lines_of, read_text
from guidegen.sources.manuscripts import head_of
from guidegen.sources.shaping import UNKNOWN
from guidegen.sources.strict_yaml import Place, Places, read_yaml
from guidegen.sources.tables import places_of_table


def locate(content: Path, origin: Origin) -> tuple[int, int, str]:
    """Line, column and text of a field, or of the nearest group around it; zeros where the file has no lines."""
    places, lines = _places(content, origin.file)
    place = _nearest(places, origin.path)
    return (place.line, place.column, line_text(lines, place.line)) if place else (0, 0, "")


def placed(content: Path, faults: tuple[Fault, ...]) -> tuple[Fault, ...]:
    """The same faults with line, column, text, and the value as written."""
    kept: dict[str, tuple[Places, list[str]]] = {}
    done = []
    for fault in faults:
        if fault.line or fault.rule == "file":
            done.append(fault)
            continue
        file = fault.origin.file
        if file not in kept:
            kept[file] = _places(content, file)
        done.append(_place(fault, *kept[file]))
    return tuple(done)


def put_in_place(faults: tuple[Fault, ...], places: Places, lines: list[str]) -> tuple[Fault, ...]:
    """The same faults placed in a text whose places are known."""
    return tuple(fault if fault.line or fault.rule == "file" else _place(fault, places, lines) for fault in faults)


def _place(fault: Fault, places: Places, lines: list[str]) -> Fault:
    place = _nearest(places, fault.origin.path)
    if place is None:
        return fault
    line, column = (place.key_line, place.key_column) if fault.rule == UNKNOWN else (place.line, place.column)
    found = places.get(fault.origin.path)
    as_written = found is not None and found.scalar and fault.rule == "shape"
    came = _short(found.raw) if found is not None and as_written else fault.came
    return replace(fault, line=line, column=column, text=line_text(lines, line), came=came)


def _short(raw: str) -> str:
    flat = " ".join(raw.split())
    return flat if len(flat) <= 60 else f"{flat[:59]}…"


def _nearest(places: Places, path: tuple[Step, ...]) -> Place | None:
    """The place of a field or of the nearest group around it."""
    return next((places[path[:end]] for end in range(len(path), -1, -1) if path[:end] in places), None)


def _places(content: Path, file: str) -> tuple[Places, list[str]]:
    """Places and lines of a file; none where it can't be read."""
    places: Places = {}
    path = content / file
    if not path.is_file():
        return places, []
    text = read_text(path, file, largest=LARGEST_TABLE)
    if isinstance(text, Fault):
        return places, []
    if path.suffix == ".csv":
        return places_of_table(text), lines_of(text)
    read_yaml(file, head_of(text) if path.suffix == ".md" else text, places=places)
    return places, lines_of(text)
