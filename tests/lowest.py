"""The lowest versions that the project says it stands on, installed for themselves: ``python3 -m tests.lowest FOLDER``."""

import subprocess
import sys
import tomllib
import venv
from pathlib import Path

from tests.conftest import ROOT
from tests.publications import SMALL


def lowest() -> tuple[str, ...]:
    """Every dependency of the project pinned to its lower bound."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    return tuple(one.split(",")[0].replace(">=", "==") for one in project["dependencies"])


def published_on_the_lowest(folder: Path) -> Path:
    """The small edition published by a Python of its own that has the lowest versions; everything lies in ``folder``."""
    venv.create(folder / "python", with_pip=True)
    python = str(folder / "python" / "bin" / "python")
    subprocess.run([python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--only-binary", ":all:", *lowest()],
                   check=True, cwd=folder)
    subprocess.run([python, "-m", "guidegen", "publish", "--quiet", "--content", str(SMALL), "--output", str(folder / "output")],
                   check=True, cwd=ROOT, env={"PYTHONPATH": str(ROOT), "PATH": "/usr/bin:/bin"})
    return folder / "output"


if __name__ == "__main__":
    print("\n".join(lowest()))  # noqa: T201
    print(published_on_the_lowest(Path(sys.argv[1])))  # noqa: T201
