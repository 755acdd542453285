"""Any number of a record, slipped or mangled: a fault, or the same meaning; never a traceback."""

import re
import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from guidegen.errors import ContentError, Fault
from guidegen.evaluation import SenseRecords, check_sense
from guidegen.flow import proof
from guidegen.sources import survey

SMALL = Path(__file__).parents[2] / "small_edition" / "content"
SESSION = "units/wexcombe-ember-550/2026-03-09.yaml"
UNIT = "units/wexcombe-ember-550/unit.yaml"
NUMBER = re.compile(r"(?<=: )-?\d+(\.\d+)?(?=[,}\n])")
FIELD = re.compile(r"(\w+): $")
NOT_NOTICED = frozenset({"current_5vsb_a"})
"""Fields too small beside their neighbours for a slip by 1000 to show."""


def slipped(text: str) -> list[tuple[str, str]]:
    """Field and text with that one number 1000 times too large or too small, for every number of a record."""
    found = []
    for number in NUMBER.finditer(text):
        field = FIELD.search(text[: number.start()])
        assert field is not None
        for value in (float(number[0]) * 1000, float(number[0]) / 1000):
            written = str(int(value)) if value == int(value) else f"{value:.9f}".rstrip("0")
            if float(number[0]) != 0 and field[1] != "format":
                found.append((field[1], text[: number.start()] + written + text[number.end():]))
    return found


def is_faulty(content: Path) -> bool:
    """Whether reading or a sense check objects."""
    found = survey(content)
    draft = found.draft
    sense = check_sense(SenseRecords(guide=draft.guide, units=draft.units, sessions=draft.sessions, prices=draft.prices))
    return bool(found.faults or sense.objections)


@pytest.fixture
def alone(tmp_path: Path) -> Path:
    """The small edition with one unit only."""
    content, name = tmp_path / "content", UNIT.split("/")[1]
    shutil.copytree(SMALL, content)
    for folder in (content / "units").iterdir():
        if folder.name != name:
            shutil.rmtree(folder)
    prices = content / "prices" / "ie.csv"
    heading, *rows = prices.read_text(encoding="utf-8").splitlines()
    prices.write_text("\n".join([heading, *(row for row in rows if name in row)]) + "\n", encoding="utf-8")
    return content


def test_the_edition_of_one_unit_is_sound(alone: Path) -> None:
    """Or else every slip in it would seem noticed."""
    assert not is_faulty(alone)


@pytest.mark.parametrize("file", [SESSION, UNIT])
def test_a_slip_by_1000_never_passes(file: str, alone: Path) -> None:
    """Every number of a session and of a unit record, one at a time, in both directions."""
    text = (alone / file).read_text(encoding="utf-8")
    passed = set()
    for field, changed in slipped(text):
        (alone / file).write_text(changed, encoding="utf-8")
        if not is_faulty(alone):
            passed.add(field)

    assert len(slipped(text)) > 60
    assert passed <= NOT_NOTICED


MANGLED = st.one_of(
    st.sampled_from(["0", "-1", "1e300", "1e-300", "-0.0", "99999999999999999999", "0.1", "12,5", ".nan", ".inf", "12 W", "", "~"]),
    st.floats(allow_nan=False, allow_infinity=False, width=32).map(repr),
    st.integers(-10, 10_000).map(str),
)


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the small edition that each example mangles and puts right again."""
    content = tmp_path_factory.mktemp("mangled") / "content"
    shutil.copytree(SMALL, content)
    return content


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data(), file=st.sampled_from([SESSION, UNIT]), mangled=MANGLED)
def test_a_mangled_number_gives_a_fault_or_a_guide(copy: Path, data: st.DataObject, file: str, mangled: str) -> None:
    """Whatever stands where a number stood: the guide is composed, or every fault is in sentences with its place."""
    text = (SMALL / file).read_text(encoding="utf-8")
    number = data.draw(st.sampled_from(list(NUMBER.finditer(text))))
    (copy / file).write_text(text[: number.start()] + mangled + text[number.end():], encoding="utf-8")
    faults = faults_of(copy)

    assert [] == [fault for fault in faults if not fault.line or not fault.expected]


def faults_of(content: Path) -> tuple[Fault, ...]:
    """Every fault that ``proof`` names; none where the whole guide could be composed."""
    try:
        proof(content)
    except ContentError as error:
        return error.faults
    return ()
