"""The press: one command at a time, and order after a run that was cut short."""

import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from guidegen.errors import PublicationError
from guidegen.press import File, Press, Staging, exchange

HOLDER = """
import sys, time
from pathlib import Path
from guidegen.press import Press
with Press.of(Path(sys.argv[1])).held():
    print("held", flush=True)
    time.sleep(600)
"""


def put(output: Path, text: str) -> None:
    """A page published."""
    press = Press.of(output)
    with press.held():
        staging = Staging(press)
        staging.take(File(path="index.html", content=text.encode()))
        staging.publish()


def page(output: Path) -> str:
    """The page that stands."""
    return (output / "index.html").read_text(encoding="utf-8")


@pytest.fixture
def held(tmp_path: Path) -> Iterator["subprocess.Popen[str]"]:
    """Another process that holds the press of ``output``."""
    command = [sys.executable, "-c", HOLDER, str(tmp_path / "output")]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        assert "held\n" == process.stdout.readline()
        yield process
        process.kill()


def test_a_second_command_is_told_who_holds_the_press(tmp_path: Path, held: "subprocess.Popen[str]",
                                                      monkeypatch: pytest.MonkeyPatch) -> None:
    """It waits a little, and then says which process is at work."""
    monkeypatch.setattr("guidegen.press.rooms.PATIENCE_S", 0.1)
    with pytest.raises(PublicationError, match=rf"another guidegen at work there \(process {held.pid}\)"):
        put(tmp_path / "output", "a")


def test_the_lock_of_a_dead_process_holds_nobody_up(tmp_path: Path, held: "subprocess.Popen[str]") -> None:
    """The system lets go of it, however the process ended."""
    held.kill()
    held.wait()
    put(tmp_path / "output", "a")

    assert "a" == page(tmp_path / "output")


def cut_short(output: Path, monkeypatch: pytest.MonkeyPatch, step: str) -> None:
    """A publication of ``b`` over ``a`` that ends at a step as if the power had gone."""
    press = Press.of(output)

    def ending(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    put(output, "a")
    with monkeypatch.context() as patched:
        patched.setattr(step, ending)
        patched.setattr(shutil, "rmtree", lambda *_, **__: None)
        with pytest.raises(KeyboardInterrupt):
            put(output, "b")
    assert press.room.is_dir()


@pytest.mark.parametrize(("step", "stands"), [
    ("guidegen.press.staging.Staging._take_over", "a"), ("guidegen.press.rooms.Press.put_in_place", "a"),
    ("guidegen.press.rooms.exchange", "a"), ("guidegen.press.rooms.Press._keep_previous", "b"),
])
def test_a_run_cut_short_leaves_a_whole_edition(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str, stands: str) -> None:
    """Wherever it ends, one edition stands whole, and the next run finds its way."""
    output = tmp_path / "output"
    cut_short(output, monkeypatch, step)
    found = page(output)
    put(output, "c")

    assert (stands, "c", stands) == (found, page(output), page(Press.of(output).previous))
    assert {"lock", "previous"} == {path.name for path in Press.of(output).room.iterdir()} - {"spare"}


@pytest.mark.parametrize("after", [1, 2, 3])
def test_an_exchange_in_three_steps_is_finished_later(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, after: int) -> None:
    """Where folders can't be exchanged in one step, a run that ends between two is put right by the next."""
    output = tmp_path / "output"
    put(output, "a")
    rename, done = Path.rename, []

    def counted(self: Path, target: Path) -> Path:
        if "output" in {self.name, target.name} or self.name.endswith(".aside"):
            done.append(target)
            if len(done) == after:
                raise KeyboardInterrupt
        return rename(self, target)

    with monkeypatch.context() as patched:
        patched.setattr("guidegen.press.exchanging._in_one_step", lambda *_: False)
        patched.setattr(Path, "rename", counted)
        patched.setattr(shutil, "rmtree", lambda *_, **__: None)
        with pytest.raises(KeyboardInterrupt):
            put(output, "b")
    with Press.of(output).held():
        pass

    assert {1: "a", 2: "b", 3: "b"}[after] == page(output)


def test_two_folders_change_places(tmp_path: Path) -> None:
    """Each bears the other's name afterwards."""
    for name in ("one", "two"):
        (tmp_path / name).mkdir()
        (tmp_path / name / name).write_text(name)
    exchange(tmp_path / "one", tmp_path / "two")

    assert {"one/two", "two/one"} == {path.relative_to(tmp_path).as_posix() for path in tmp_path.glob("*/*")}


def test_a_file_in_the_folder_s_place_is_said(tmp_path: Path) -> None:
    """A published folder can't be a file."""
    (tmp_path / "output").write_text("mine")

    with pytest.raises(PublicationError, match="came a file, expected a folder or nothing"):
        put(tmp_path / "output", "a")
