"""Field by field: in what two records of one kind differ."""

from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass
from datetime import date

from guidegen.records import Anchor

Plain = str | float | int | bool | None
"""A value as a document holds it; nothing where the field is not there."""
WORDS = frozenset({"reason", "document", "weight_reviewed", "anchors_changed", "serves", "format", "editor_note", "accepted"})
"""Fields that tell a reader or an editor something and decide nothing."""
LABELS = (
    ("id",), ("finding",), ("protection",), ("rail",), ("connector",), ("load_pct",), ("region", "bracket"), ("bracket", "choice"),
)
"""Fields by which the entries of a list are told apart, the first that they have."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldDifference:
    """One field in which two records differ."""

    field: str
    """The field, such as ``criteria[noise].points``."""
    before: Plain
    """What stood there."""
    after: Plain
    """What stands there."""


def record_differences(before: object, after: object, field: str = "") -> Iterator[FieldDifference]:
    """Every field that differs, in the order of the record; entries of lists are matched by their names."""
    if before == after:
        return
    if is_dataclass(before) and type(before) is type(after):
        for one in fields(before):
            if one.name not in WORDS and not one.name.startswith("_"):
                path = f"{field}.{one.name}" if field else one.name
                yield from record_differences(getattr(before, one.name), getattr(after, one.name), path)
    elif isinstance(before, tuple) and isinstance(after, tuple) and not _is_scale(before + after):
        old, new = _labelled(before), _labelled(after)
        for label in dict.fromkeys((*new, *old)):
            yield from record_differences(old.get(label), new.get(label), f"{field}[{label}]")
    else:
        yield FieldDifference(field=field, before=_plain(before), after=_plain(after))


def _labelled(entries: tuple[object, ...]) -> dict[str, object]:
    """Entries by name; by number where they have none or share one."""
    labels = [_label(entry) for entry in entries]
    if None in labels or len(set(labels)) < len(labels):
        return {f"{i}": entry for i, entry in enumerate(entries)}
    return {f"{label}": entry for label, entry in zip(labels, entries, strict=True)}


def _label(entry: object) -> str | None:
    if isinstance(entry, str):
        return entry
    names = next((names for names in LABELS if all(hasattr(entry, name) for name in names)), ())
    values = (getattr(entry, name) for name in names)
    return " ".join(f"{value:g}" if isinstance(value, float) else f"{value}" for value in values) or None


def _is_scale(entries: tuple[object, ...]) -> bool:
    return bool(entries) and all(isinstance(entry, Anchor) for entry in entries)


def _plain(value: object) -> Plain:
    """The value of a field; a scale in words, and for a whole entry only that it is there."""
    if value is None or isinstance(value, (str, float, int)):
        return value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple) and _is_scale(value):
        return ", ".join(f"{anchor.worth:g} at {anchor.at:g}" for anchor in value)
    return "there" if value != () else None
