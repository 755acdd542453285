"""Every file of the content damaged in every way that we could think of: a sentence or a guide, never a traceback, never a wait."""

import re
import shutil
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from guidegen.cli import main
from guidegen.errors import ContentError, Fault
from guidegen.flow import proof
from guidegen.sources import read_build, read_library, read_mapping, read_protections, survey, tampered
from tests.bench_logs import LOAD_MAPPING
from tests.children import answer_to
from tests.conftest import ROOT
from tests.damage import damaged, shuffled, torn, watched
from tests.examples import examples
from tests.frozen import NAME, frozen_content
from tests.publications import SMALL
from tests.tally import Tally

UNTIMED = [HealthCheck.function_scoped_fixture, HealthCheck.too_slow, HealthCheck.data_too_large]
CORRECTION = '- {date: 2026-03-20, words: "The depth was wrong.", unit: tarnbeck-kiln-650, field: size.depth_mm, was: 150.5, is: 140}\n'
PARTS = read_library(SMALL).parts
TECHNICAL = ("Traceback", "Input should", "validation", "dataclass", "pydantic", "Errno", " object at 0x", "NoneType")
"""Words that no editor should have to read."""


def content_with_everything(folder: Path) -> Path:
    """The small edition with a mapping and a correction, so that every kind of file is there."""
    content = Path(shutil.copytree(SMALL, folder / "content"))
    (content / "mappings").mkdir()
    (content / "mappings" / "bench.yaml").write_text(LOAD_MAPPING, encoding="utf-8")
    (content / "corrections.yaml").write_text(CORRECTION, encoding="utf-8")
    (content / "pictures").mkdir()
    shutil.copy(ROOT / "content" / "pictures" / "halmer-quill-850.svg", content / "pictures")
    return content


KINDS = {
    "guide": "guide.yaml", "policy": "policy.yaml", "parts": "parts.yaml", "unit": "units/tarnbeck-kiln-650/unit.yaml",
    "session": "units/tarnbeck-kiln-650/2026-03-02.yaml", "prices": "prices/ie.csv", "prose": "pages/how-we-test.md",
    "mapping": "mappings/bench.yaml", "corrections": "corrections.yaml", "picture": "pictures/halmer-quill-850.svg",
}
"""A file of each kind."""


@pytest.fixture
def content(tmp_path: Path) -> Iterator[Path]:
    """The content that is damaged; sound before and after."""
    yield content_with_everything(tmp_path)
    shutil.rmtree(tmp_path / "content")


def fit_to_read(faults: tuple[Fault, ...]) -> None:
    """Each fault is a sentence for an editor."""
    for fault in faults:
        assert fault.expected, fault
        assert not any(word in fault.expected for word in TECHNICAL), fault


@pytest.mark.parametrize("kind", KINDS)
def test_a_damaged_file_is_read_or_answered(content: Path, kind: str, tally: Tally) -> None:
    """By its reader and by the checks of what files say of each other, within two seconds of computing."""
    path = content / KINDS[kind]
    whole = path.read_bytes()

    @settings(max_examples=examples(200), deadline=None, suppress_health_check=UNTIMED)
    @given(damaged(KINDS[kind], whole))
    def hold(raw: bytes) -> None:
        tally.tried(f"damaged files, read: {kind}")
        path.write_bytes(raw)
        with watched():
            fit_to_read(survey(content).faults)

    assert () == survey(content).faults
    hold()
    path.write_bytes(whole)


@pytest.mark.parametrize("kind", KINDS)
def test_a_damaged_file_ends_in_sentences_or_in_a_guide(content: Path, kind: str, tally: Tally) -> None:
    """Read, asked whether its numbers can be, evaluated and composed, within two seconds of computing."""
    path = content / KINDS[kind]
    whole = path.read_bytes()

    @settings(max_examples=examples(15, 2_500), deadline=None, suppress_health_check=UNTIMED)
    @given(damaged(KINDS[kind], whole))
    def hold(raw: bytes) -> None:
        tally.tried(f"damaged files, read and evaluated: {kind}")
        path.write_bytes(raw)
        with watched():
            try:
                proof(content)
            except ContentError as error:
                fit_to_read(error.faults)

    proof(content)
    hold()
    path.write_bytes(whole)


ALONE: dict[str, tuple[str, str, Callable[[Path, Path], object]]] = {
    "build": ("build.yaml", "format: 1\nparts: {processor.mid: 1, graphics.high: 1}\n", lambda path, content: read_build(path, content, PARTS)),
    "protections": ("protections.yaml", "- {protection: opp, outcome: acted, trip_power_w: 810}\n- {protection: scp, outcome: not_tested}\n",
                    read_protections),
    "mapping": ("bench.yaml", LOAD_MAPPING, read_mapping),
}
"""Files that are no part of a guide, with what reads them."""


@pytest.mark.parametrize("kind", ALONE)
def test_a_damaged_file_beside_the_content_is_read_or_answered(tmp_path: Path, tally: Tally, kind: str) -> None:
    """What the commands for a bench and for a computer are given."""
    name, text, read = ALONE[kind]
    path = tmp_path / name

    @settings(max_examples=examples(25, 2_500), deadline=None, suppress_health_check=UNTIMED)
    @given(damaged(name, text.encode()))
    def hold(raw: bytes) -> None:
        tally.tried(f"damaged files: {kind}, alone")
        path.write_bytes(raw)
        with watched():
            try:
                read(path, tmp_path)
            except ContentError as error:
                fit_to_read(error.faults)

    hold()


FROZEN = ("edition.json", "SHA256SUMS", "content/guide.yaml")
"""Files of an edition: what it says of itself, the list of its files, and one of these."""


@pytest.mark.parametrize("name", FROZEN)
def test_a_damaged_edition_is_read_or_answered(tmp_path: Path, tally: Tally, name: str) -> None:
    """By its reader, and held against its hashes: a sentence, unless nothing changed."""
    content = frozen_content(tmp_path)
    path = content / "editions" / NAME / name
    whole = path.read_bytes()

    @settings(max_examples=examples(120, 7_000), deadline=None, suppress_health_check=UNTIMED)
    @given(st.one_of(torn(whole), shuffled(whole)))
    def hold(raw: bytes) -> None:
        tally.tried("damaged files, read: frozen editions")
        path.write_bytes(raw)
        with watched():
            found = survey(content)
            faults = (*found.faults, *tampered(content, found.draft.editions))
        fit_to_read(faults)
        assert faults or raw == whole

    hold()


@pytest.mark.parametrize("name", FROZEN)
def test_a_damaged_edition_is_noticed(tmp_path: Path, tally: Tally, name: str) -> None:
    """Whatever happened to what was frozen: a sentence, unless nothing changed."""
    content = frozen_content(tmp_path)
    path = content / "editions" / NAME / name
    whole = path.read_bytes()

    @settings(max_examples=examples(10, 1_000), deadline=None, suppress_health_check=UNTIMED)
    @given(st.one_of(torn(whole), shuffled(whole)))
    def hold(raw: bytes) -> None:
        tally.tried("damaged files, read and evaluated: frozen editions")
        path.write_bytes(raw)
        faults: tuple[Fault, ...] = ()
        with watched(4.0):
            try:
                proof(content)
            except ContentError as error:
                faults = error.faults
        fit_to_read(faults)
        assert faults or raw == whole

    hold()


def proofread(content: Path) -> None:
    """The command, in the process that calls this."""
    main(["proof", "--quiet", "--content", str(content)])


def test_the_command_itself_answers_damage_with_a_sentence(content: Path, tmp_path: Path, tally: Tally) -> None:
    """``guidegen proof`` as a process: exit 0, or exit 1 and the faults counted; nothing else."""
    whole = {kind: (content / file).read_bytes() for kind, file in KINDS.items()}

    @settings(max_examples=examples(12, 400), deadline=None, suppress_health_check=UNTIMED)
    @given(st.sampled_from(sorted(KINDS)).flatmap(lambda kind: st.tuples(st.just(kind), damaged(KINDS[kind], whole[kind]))))
    def hold(damage: tuple[str, bytes]) -> None:
        kind, raw = damage
        tally.tried("damaged files given to the command as a process")
        (content / KINDS[kind]).write_bytes(raw)
        answer = answer_to(partial(proofread, content), tmp_path / "said")
        (content / KINDS[kind]).write_bytes(whole[kind])
        assert answer.code == 0 or (answer.code == 1 and re.search(r"^[0-9]+ faults?$", answer.said, re.MULTILINE)), answer

    hold()
