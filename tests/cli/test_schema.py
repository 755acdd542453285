"""``guidegen schema``: what an editor that completes and checks YAML is given."""

import json

import pytest
from click.testing import CliRunner

from guidegen.cli import main
from guidegen.sources import KINDS


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_the_schema_of_every_kind_is_printed(kind: str) -> None:
    """JSON Schema, draft 2020-12: needed fields named, unknown ones refused, descriptions with units."""
    result = CliRunner().invoke(main, ["schema", kind])
    document = json.loads(result.stdout)

    assert (0, "https://json-schema.org/draft/2020-12/schema") == (result.exit_code, document["$schema"])
    if kind == "corrections":
        assert ("array", "#/$defs/Correction") == (document["type"], document["items"]["$ref"])
        document = document["$defs"]["Correction"]
        assert {"date", "words"} == set(document["required"])
        assert "is" in document["properties"]
    else:
        assert "format" in document["required"]
    assert document["additionalProperties"] is False
    assert all(field.get("description") or "$ref" in field for field in document["properties"].values())


def test_without_a_kind_the_kinds_are_listed() -> None:
    """One a line."""
    assert ["guide", "policy", "parts", "unit", "session", "mapping", "corrections"] == CliRunner().invoke(main, ["schema"]).stdout.split()


def test_an_unknown_kind_is_wrong_use_and_answered_with_the_nearest() -> None:
    """Exit code 2."""
    result = CliRunner().invoke(main, ["schema", "sesion"])

    assert 2 == result.exit_code
    assert "did you mean session?" in result.stderr
