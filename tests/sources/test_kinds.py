"""Records seen from outside."""

from dataclasses import fields, is_dataclass
from typing import Any

import pytest

from guidegen.origins import Step
from guidegen.records import GuideRecord, PartsRecord, SessionRecord, UnitRecord
from guidegen.sources.kinds import allowed_words, field_names, type_at


@pytest.mark.parametrize(
    ("kind", "path", "found"),
    [
        (SessionRecord, ("noise_sweep", "points", 0, "levels_dba", 0), float),
        (PartsRecord, ("examples", 0, "parts", "processor.mid"), int),
        (UnitRecord, ("no_such_field", "deeper"), None),
        (GuideRecord, ("title", 0), None),
    ],
)
def test_a_path_leads_to_a_type(kind: type[Any], path: tuple[Step, ...], found: object) -> None:
    """Through groups, lists, pairs and fields that may be left out; nowhere where it leads nowhere."""
    assert found is type_at(kind, path)


def test_groups_know_their_fields_and_choices_their_words() -> None:
    """As the records declare them."""
    size = type_at(UnitRecord, ("size",))

    assert is_dataclass(size)
    assert field_names(UnitRecord, ("size",)) == tuple(field.name for field in fields(size))
    assert ("ATX", "SFX", "SFX-L", "TFX") == allowed_words(UnitRecord, ("form_factor",))
    assert () == allowed_words(UnitRecord, ("maker",))
