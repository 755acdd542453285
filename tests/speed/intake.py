"""``python3 -m tests.speed.intake``: rows a second and peak memory of the intake of a long log; the log is made first."""

import argparse
import json
import os
import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.invention.logs import LOAD_MAPPING

ROOT = Path(__file__).parent.parent.parent
UNIT = "ostrand-level-850-ii"
LOADS = (17, 43, 85, 170, 255, 340, 425, 510, 595, 680, 765, 850, 935)
HEADING = "t,P_out,P_in,PF,U_12V,U_5V,U_3V3,U_5VSB,I_12V,I_5V,I_3V3,I_5VSB,ripple_12V,ripple_5V,ripple_3V3,fan"


def write_log(path: Path, rows: int) -> None:
    """A load sweep of thirteen loads that scatter."""
    rng = random.Random(rows)  # noqa: S311
    scatter = [rng.gauss(0, 0.05) for _ in range(997)]
    with path.open("w", encoding="utf-8", newline="\n") as stream:
        stream.write(f"{HEADING}\n")
        for row in range(rows):
            watts = LOADS[row * len(LOADS) // rows]
            one, two = scatter[row % 997], scatter[row * 7 % 991]
            stream.write(
                f"{row},{watts + one:.2f},{watts * 1.07 + 6 + two:.2f},0.98,{12060 + 20 * two:.0f},{5012 + 20 * one:.0f},3301,5041,"
                f"{watts * 0.9 / 12.06 + one:.2f},{watts * 0.09 / 5.012 + two / 10:.2f},0.05,0.05,"
                f"{12 + 9 * one:.0f},7,8,{700 * row // rows if watts > 85 else 0}\n"
            )


def main() -> None:
    """Writes, runs and prints."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rows", type=int, default=1_000_000)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        log, mapping = Path(folder) / "long.csv", Path(folder) / "bench.yaml"
        write_log(log, asked.rows)
        mapping.write_text(LOAD_MAPPING, encoding="utf-8")
        command = (
            sys.executable, "-m", "guidegen", "intake", str(log), "--mapping", str(mapping), "--unit", UNIT, "--date", "2026-06-30",
            "--ambient", "23", "--dry-run", "--json",
        )
        start = time.perf_counter()
        process = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE)
        assert process.stdout is not None
        document = json.load(process.stdout)
        _, status, usage = os.wait4(process.pid, 0)
        seconds = time.perf_counter() - start
        size = log.stat().st_size
    assert status == 0
    read = document["logs"][0]["rows_read"]
    cpu = usage.ru_utime + usage.ru_stime
    print(f"{read} rows, {size / 1e6:.0f} MB: {seconds:.1f} s ({cpu:.1f} s of processor), {read / seconds:.0f} rows/s, peak {usage.ru_maxrss / 1024:.0f} MB")


if __name__ == "__main__":
    main()
