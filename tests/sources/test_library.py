"""The content folder as a whole: the small edition is read, and whatever is wrong is said all at once."""

import os
import shutil
from datetime import date
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from guidegen.errors import ContentError, Fault, RequestError
from guidegen.origins import Origin
from guidegen.sources import KINDS, locate, read_library, schema
from tests.damage import watched
from tests.examples import examples
from tests.tally import Tally

SMALL_EDITION = Path(__file__).parents[1] / "small_edition" / "content"
FILES = sorted(path.relative_to(SMALL_EDITION).as_posix() for path in SMALL_EDITION.rglob("*") if path.is_file())


@pytest.fixture
def content(tmp_path: Path) -> Path:
    """A copy of the small edition to break."""
    shutil.copytree(SMALL_EDITION, tmp_path / "content")
    return tmp_path / "content"


def faults_of(content: Path) -> tuple[Fault, ...]:
    """The faults that reading a content folder raises."""
    with pytest.raises(ContentError) as refused:
        read_library(content)
    return refused.value.faults


def messages_of(content: Path) -> list[str]:
    """The same as sentences."""
    return [fault.message for fault in faults_of(content)]


def test_the_small_edition_is_read_whole_and_in_order() -> None:
    """Units by identifier, sessions by unit and date, prices by region, pages by identifier."""
    library = read_library(SMALL_EDITION)

    units = ["ostrevant-cairn-550", "tarnbeck-hearth-650", "tarnbeck-kiln-650", "wexcombe-ember-550"]
    assert units == [unit.id for unit in library.units]
    assert units == [session.unit for session in library.sessions]
    assert ["ie"] == [prices.region for prices in library.prices]
    assert ["how-we-test"] == [page.id for page in library.manuscripts]
    assert 13 == len(library.prices[0].rows)


def test_values_arrive_as_written() -> None:
    """Numbers, days, quoted figures and tuples come out as the files have them."""
    library = read_library(SMALL_EDITION)
    unit, session = library.units[2], library.sessions[2]

    assert (650.0, date(2025, 3, 15), "1.0") == (unit.record.rated_power_w, unit.record.released, unit.record.revision)
    assert (2.0, 10.0, 20.0) == tuple(point.load_pct for point in session.record.load_points[:3])
    assert 84.90 == library.prices[0].rows[9].price


def test_energy_is_not_made_from_nothing() -> None:
    """In every load point of the small edition the rails sum to the delivered power, which is below the power drawn."""
    for session in read_library(SMALL_EDITION).sessions:
        for point in session.record.load_points:
            currents = (point.current_12v_a, point.current_5v_a, point.current_3v3_a, point.current_5vsb_a)
            voltages = (point.voltage_12v_v, point.voltage_5v_v, point.voltage_3v3_v, point.voltage_5vsb_v)
            summed = sum(v * i for v, i in zip(voltages, currents, strict=True) if i is not None)
            assert pytest.approx(point.delivered_power_w, abs=0.06) == summed
            assert point.input_power_w > point.delivered_power_w


def test_a_manuscript_knows_where_its_body_begins() -> None:
    """The body's first line has the number that an editor shows."""
    page = read_library(SMALL_EDITION).manuscripts[0]
    lines = (SMALL_EDITION / page.file).read_text(encoding="utf-8").splitlines()

    assert lines[page.body_line - 1] == page.body.splitlines()[0]


def test_an_empty_folder_lacks_its_three_files(tmp_path: Path) -> None:
    """Each of the records that every guide has is asked for by name."""
    assert [
        "guide.yaml: came no such file, expected the file guide.yaml in the content folder",
        "parts.yaml: came no such file, expected the file parts.yaml in the content folder",
        "policy.yaml: came no such file, expected the file policy.yaml in the content folder",
    ] == messages_of(tmp_path)


def test_a_folder_that_does_not_exist_is_named(tmp_path: Path) -> None:
    """A mistyped folder is a fault, not a traceback."""
    assert [
        "guide.yaml: came no content folder, expected a folder nowhere with the records of the guide"
    ] == messages_of(tmp_path / "nowhere")


def test_faults_of_several_files_come_at_once_and_sorted(content: Path) -> None:
    """One run tells everything: YAML, shape, table, missing file and reference, ordered by file and line."""
    (content / "parts.yaml").write_text("format: 1\n\tclasses: []\n", encoding="utf-8")
    (content / "prices" / "ie.csv").write_text("date;unit\n", encoding="utf-8")
    (content / "units" / "tarnbeck-hearth-650" / "unit.yaml").unlink()
    session = content / "units" / "tarnbeck-kiln-650" / "2026-03-02.yaml"
    session.write_text(session.read_text().replace("230.2", "yes").replace("analyser,", "analyzer,"), encoding="utf-8")
    unit = content / "units" / "wexcombe-ember-550" / "unit.yaml"
    unit.write_text(unit.read_text().replace("rated_power_w: 550", "rated_power_w: 5500"), encoding="utf-8")

    assert [
        ("parts.yaml", 2, 1),
        ("prices/ie.csv", 1, 0),
        ("units/tarnbeck-hearth-650/unit.yaml", 0, 0),
        ("units/tarnbeck-kiln-650/2026-03-02.yaml", 6, 20),
        ("units/wexcombe-ember-550/unit.yaml", 7, 16),
    ] == [(fault.origin.file, fault.line, fault.column) for fault in faults_of(content)]


def test_a_faulty_guide_does_not_make_every_reference_a_fault(content: Path) -> None:
    """Where the guide itself can't be read, regions, brackets and instruments are not held against it."""
    (content / "guide.yaml").write_text("title: [\n", encoding="utf-8")

    assert ["guide.yaml"] == [fault.origin.file for fault in faults_of(content)]


def test_a_faulty_unit_is_still_a_known_name(content: Path) -> None:
    """Prices and successors of a unit whose record has a fault are not faults themselves."""
    unit = content / "units" / "tarnbeck-hearth-650" / "unit.yaml"
    unit.write_text(unit.read_text().replace("maker: Tarnbeck\n", "", 1), encoding="utf-8")

    assert ["units/tarnbeck-hearth-650/unit.yaml:1, maker: came nothing, expected the field maker"] == messages_of(content)


def test_a_second_session_of_a_day_has_a_suffix(content: Path) -> None:
    """``2026-03-02-b.yaml`` is a session of that day; it stands behind the first."""
    folder = content / "units" / "tarnbeck-kiln-650"
    shutil.copy(folder / "2026-03-02.yaml", folder / "2026-03-02-b.yaml")

    files = [session.file.rpartition("/")[2] for session in read_library(content).sessions_of("tarnbeck-kiln-650")]
    assert ["2026-03-02-b.yaml", "2026-03-02.yaml"] == files


def test_files_in_the_wrong_place_are_named(content: Path) -> None:
    """Stray files are faults; dot files and bench logs are none."""
    kiln = content / "units" / "tarnbeck-kiln-650"
    (kiln / "logs").mkdir()
    (kiln / "logs" / "run.csv").write_text("1,2\n")
    (kiln / ".draft.yaml").write_text("no: [")
    (kiln / "unti.yaml").write_text("format: 1\n")
    (content / "units" / "notes.txt").write_text("x")
    (content / "units" / "Kiln 700").mkdir()
    (content / "prices" / "ie.xlsx").write_bytes(b"PK")
    (content / "pages" / "pictures").mkdir()
    (content / "correction.yaml").write_text("format: 1\n")
    (content / "hobley.yaml").write_text("format: 1\n")
    (content / "README.md").write_text("What lies where.\n")
    (content / "picture").mkdir()
    (kiln / "2026-02-30.yaml").write_text("format: 1\n")

    name = "a folder named in small letters and digits with single -, . or _ between them"
    session = "unit.yaml, or a session named by its day such as 2026-03-02.yaml or 2026-03-02-b.yaml"
    assert [
        "correction.yaml: came correction.yaml, expected a file of the guide; did you mean corrections.yaml?",
        ("hobley.yaml: came hobley.yaml, expected one of guide.yaml, policy.yaml, parts.yaml, corrections.yaml; "
         "a unit's records lie in units/<unit>/, prices in prices/"),
        "pages/pictures: came pictures/, expected a page named in small letters, such as how-we-test.md",
        "picture: came picture, expected a folder of the guide; did you mean pictures?",
        "prices/ie.xlsx: came ie.xlsx, expected a table named by its region, such as ie.csv",
        f"units/Kiln 700: came Kiln 700, expected {name}; did you mean kiln-700?",
        "units/notes.txt: came a file, expected a folder for each unit, with unit.yaml and its sessions",
        ("units/tarnbeck-kiln-650/2026-02-30.yaml: came the day 2026-02-30, which the calendar has not, "
         "expected the day of the session, such as 2026-03-02.yaml"),
        f"units/tarnbeck-kiln-650/unti.yaml: came unti.yaml, expected {session}; did you mean unit.yaml?",
    ] == messages_of(content)


def test_folders_that_differ_in_capitals_only_clash(content: Path) -> None:
    """On some disks both would be one folder."""
    (content / "units" / "Tarnbeck-Kiln-650").mkdir()

    clash = "came a name that differs from Tarnbeck-Kiln-650 in capitals only, expected a name of its own, in small letters"
    assert any(f"units/tarnbeck-kiln-650: {clash}" == message for message in messages_of(content))


def test_a_link_out_of_the_content_is_refused(content: Path, tmp_path: Path) -> None:
    """Whether to a file or a folder; a link inside the content is welcome."""
    (tmp_path / "secret.md").write_text("---\ntitle: a\ndescription: b\n---\n")
    (content / "pages" / "secret.md").symlink_to(tmp_path / "secret.md")
    (content / "pages" / "lost.md").symlink_to(tmp_path / "lost.md")
    (content / "pages" / "again.md").symlink_to(content / "pages" / "how-we-test.md")
    (content / "units" / "outside").symlink_to(tmp_path)

    refused = "came a link that leads out of the content folder, expected the file itself"
    assert [f"pages/lost.md: {refused}", f"pages/secret.md: {refused}", f"units/outside: {refused}"] == messages_of(content)


def test_a_pipe_is_not_waited_for(content: Path) -> None:
    """A file that would never end is refused before it is opened."""
    os.mkfifo(content / "pages" / "pipe.md")

    assert ["pages/pipe.md: came neither a file nor a folder, expected a file or folder"] == messages_of(content)


def test_a_unit_without_a_session_is_told_so(content: Path) -> None:
    """A unit that nobody measured can't be in a guide."""
    (content / "units" / "wexcombe-ember-550" / "2026-03-09.yaml").unlink()

    assert [
        "units/wexcombe-ember-550/unit.yaml: came no session, expected at least one bench session beside unit.yaml, such as 2026-03-02.yaml"
    ] == messages_of(content)


def test_units_that_replace_each_other_in_a_circle_are_refused(content: Path) -> None:
    """A unit can't be older than itself."""
    unit = content / "units" / "tarnbeck-hearth-650" / "unit.yaml"
    unit.write_text(unit.read_text().replace("model:", "predecessor: tarnbeck-kiln-650\nmodel:", 1), encoding="utf-8")

    expected = "expected an older unit; this one would be its own predecessor"
    assert [
        f"units/tarnbeck-hearth-650/unit.yaml:3, predecessor: came tarnbeck-kiln-650, {expected}",
        f"units/tarnbeck-kiln-650/unit.yaml:5, predecessor: came tarnbeck-hearth-650, {expected}",
    ] == messages_of(content)


def test_prices_of_a_region_that_does_not_exist_are_refused(content: Path) -> None:
    """The name of the file is the region's."""
    shutil.copy(content / "prices" / "ie.csv", content / "prices" / "iie.csv")

    assert ["prices/iie.csv: came iie, expected the name of a region; did you mean ie?"] == messages_of(content)


@pytest.mark.parametrize(
    ("path", "line", "column"),
    [
        (("rated_power_w",), 8, 16),
        (("rails",), 9, 1),
        (("rails", 1), 11, 5),
        (("rails", 1, "rated_current_a"), 11, 33),
        (("claims", "standard"), 21, 13),
        (("claims", "no_such_field"), 18, 1),
        ((), 1, 1),
    ],
)
def test_a_field_is_located(path: tuple[str | int, ...], line: int, column: int) -> None:
    """Values at their first character, groups at their name, what is missing at the group around it."""
    file = "units/tarnbeck-kiln-650/unit.yaml"
    text = (SMALL_EDITION / file).read_text(encoding="utf-8").splitlines()[line - 1]

    assert (line, column, text) == locate(SMALL_EDITION, Origin(file, path))


def test_a_cell_of_a_table_is_located() -> None:
    """Rows count from the one below the heading."""
    text = (SMALL_EDITION / "prices" / "ie.csv").read_text(encoding="utf-8").splitlines()[3]

    assert (4, 30, text) == locate(SMALL_EDITION, Origin("prices/ie.csv", (2, "price")))


def test_what_has_no_place_is_at_line_nought() -> None:
    """A file that isn't there has no lines."""
    assert (0, 0, "") == locate(SMALL_EDITION, Origin("units/none/unit.yaml", ("maker",)))


@pytest.mark.parametrize("kind", KINDS)
def test_every_field_of_a_schema_is_described(kind: str) -> None:
    """Editors show what a field means and in which unit it is."""
    made = schema(kind)
    groups = [made, *made["$defs"].values()]

    assert all(group["additionalProperties"] is False for group in groups if group.get("type") == "object")
    described = {f"#/$defs/{name}" for name, group in made["$defs"].items() if group.get("description")}
    assert [] == [
        name for group in groups for name, field in group.get("properties", {}).items()
        if not field.get("description") and field.get("$ref") not in described
    ]


def test_an_unknown_kind_of_record_has_no_schema() -> None:
    """The answer names the kinds there are."""
    with pytest.raises(RequestError) as refused:
        schema("polcy")

    expected = "there is no record kind polcy, expected one of guide, policy, parts, unit, session, mapping, corrections; did you mean policy?"
    assert expected == str(refused.value)


@st.composite
def broken_files(draw: st.DrawFn) -> tuple[str, bytes]:
    """A file of the small edition with a line dropped, doubled or renamed, a value retyped, or bytes thrown in."""
    file = draw(st.sampled_from(FILES))
    raw = (SMALL_EDITION / file).read_bytes()
    lines = raw.splitlines(keepends=True)
    place = draw(st.integers(0, len(lines) - 1))
    way = draw(st.sampled_from(("drop", "double", "rename", "retype", "insert", "cut")))
    if way == "insert":
        spot = draw(st.integers(0, len(raw)))
        return file, raw[:spot] + draw(st.binary(min_size=1, max_size=6)) + raw[spot:]
    if way == "cut":
        return file, raw[: draw(st.integers(0, len(raw)))]
    line = lines[place]
    name, colon, _ = line.partition(b":")
    words = (b"yes", b"[]", b"{}", b"1e400", b"12,5", b"850 W", b"'", b"-1", b"~", b"*x", b"!!python/name:os.system", b"9" * 5000)
    lines[place] = {
        "drop": b"", "double": line * 2, "rename": name[:-1] + colon + line[len(name) + 1 :],
        "retype": name + b": " + draw(st.sampled_from(words)) + b"\n",
    }[way]
    return file, b"".join(lines)


@settings(max_examples=examples(120), deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(broken=broken_files())
def test_no_damage_ends_in_a_traceback(broken: tuple[str, bytes], tmp_path_factory: pytest.TempPathFactory, tally: Tally) -> None:
    """A damaged file gives faults in plain words with existing lines, or a library like the one before."""
    file, raw = broken
    tally.tried("damaged files: records, tables and pages alone")
    content = tmp_path_factory.mktemp("broken") / "content"
    shutil.copytree(SMALL_EDITION, content)
    (content / file).write_bytes(raw)
    try:
        with watched():
            library = read_library(content)
    except ContentError as error:
        for fault in error.faults:
            assert fault.expected
            assert fault.came
            assert fault.expected != "a value of another kind"
            assert not any(word in fault.message for word in ("Input should", "validation", "Traceback", "dataclass"))
            assert fault.text in (content / fault.origin.file).read_text(encoding="utf-8", errors="replace") or not fault.line
    else:
        whole = read_library(SMALL_EDITION)
        assert (len(whole.units), len(whole.sessions)) == (len(library.units), len(library.sessions))
    shutil.rmtree(content)
