"""The command as a process of its own: its exit code, its words through a pipe, and how it ends."""

import json
import os
import subprocess
import sys
from pathlib import Path

SMALL = Path(__file__).parent.parent / "small_edition" / "content"
ENDING = """
import atexit, sys
from guidegen import __main__ as process

class Held:
    def __del__(self):
        print("taken apart")

def main():
    process.held = Held()
    atexit.register(print, "a library ends")
    print("done")
    raise SystemExit(CODE)

process.main = main
process.run()
"""
"""A run in which a library wants to end in its own way, and something is held until the end."""


def of(*arguments: str) -> subprocess.CompletedProcess[str]:
    """What a Python process came to."""
    return subprocess.run([sys.executable, *arguments], capture_output=True, text=True, check=False)


def test_words_arrive_whole_and_the_code_tells() -> None:
    """A document longer than a pipe holds at a time, and the codes of a run, of a fault and of a wrong call."""
    ranked = of("-m", "guidegen", "rank", "--json", "--content", str(SMALL))
    assert ranked.returncode == 0
    assert json.loads(ranked.stdout)
    assert of("-m", "guidegen", "proof", "--content", str(SMALL / "units")).returncode == 1
    assert of("-m", "guidegen", "proof", "--no-such-option").returncode == 2


def test_the_process_ends_at_once_after_its_libraries() -> None:
    """Exit functions are called and words are told; what is held is left to the system."""
    ended = of("-c", ENDING.replace("CODE", "3"))
    assert (ended.returncode, ended.stdout.split("\n"), ended.stderr) == (3, ["done", "a library ends", ""], "")


def test_an_end_in_words_is_left_to_python() -> None:
    """An exit code that is a sentence is printed, as Python does, and makes 1."""
    ended = of("-c", ENDING.replace("CODE", "'no room'"))
    assert (ended.returncode, ended.stderr) == (1, "no room\n")
    assert "taken apart" in ended.stdout


def test_a_full_disk_is_not_passed_over() -> None:
    """Words that can't be told make the process fail, also where they were only waiting to be told."""
    waiting = "import sys; from guidegen import __main__ as process; process.main = lambda: (print('done'), sys.exit(0)); process.run()"
    buffered = {name: value for name, value in os.environ.items() if name != "PYTHONUNBUFFERED"}
    with Path("/dev/full").open("w") as full:
        ended = subprocess.run([sys.executable, "-c", waiting], stdout=full, stderr=subprocess.PIPE, text=True, check=False, env=buffered)
    assert ended.returncode == 120  # Python's own code for output that can't be flushed (Py_FinalizeEx)
    assert "No space left" in ended.stderr
