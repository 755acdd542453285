"""The program that measures the speed runs and tells every figure; what it tells is printed and never held to a number."""

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

from tests.tally import FIGURE

ROOT = Path(__file__).parent.parent


def test_the_quick_measurement_tells_every_figure(tmp_path: Path, record_property: Callable[[str, object], None]) -> None:
    """Against its own references, in one run; the machine of a test run is too busy to say more."""
    told = tmp_path / "figures.json"
    done = subprocess.run([sys.executable, "-m", "tests.speed", "--quick", "--json", str(told)],
                          cwd=ROOT, capture_output=True, text=True, check=False)
    assert 0 == done.returncode, done.stdout + done.stderr
    figures = json.loads(told.read_text(encoding="utf-8"))["figures"]
    for one in figures:
        record_property(FIGURE, f"{one['name']}: {one['found']:.3g}{one['unit']}, at most {one['target']:g}{one['unit']}")

    assert 10 == len({one["name"] for one in figures})
    assert all(one["found"] > 0 for one in figures)
