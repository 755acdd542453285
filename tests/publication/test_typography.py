"""Numbers and units stay together, and nothing inside a tag is touched."""

from hypothesis import given
from hypothesis import strategies as st

from guidegen.publication.typography import NO_BREAK, units_kept


def test_a_unit_stays_with_its_number() -> None:
    """Letters after a unit make it a word, which may break away."""
    assert f"12{NO_BREAK}V rail, 850 Ways, 93.1{NO_BREAK}%, 3 units" == units_kept("12 V rail, 850 Ways, 93.1 %, 3 units")
    assert f"20{NO_BREAK}MHz, 8 MHzen" == units_kept("20 MHz, 8 MHzen")


@given(st.text(alphabet="MVHWA 0123456789.", max_size=40))
def test_a_drawing_is_never_touched(path: str) -> None:
    """Path data has letters that look like units."""
    assert f'<path d="{path}"/>' == units_kept(f'<path d="{path}"/>')


@given(st.text(alphabet=st.characters(blacklist_characters="<>"), max_size=60))
def test_only_spaces_change(text: str) -> None:
    """Put back, the text is the same."""
    assert text.replace(NO_BREAK, " ") == units_kept(text).replace(NO_BREAK, " ")
