"""``python3 -m tests.speed.weights``: how long Chromium takes to rank a bracket again by other weights, page and all.

Each run moves all sliders as a reader would, ranks the table, puts the rows in order and makes the browser lay the page
out; without throttling. The bracket holds so many placed units of an invented library.
"""

import argparse
import random
import shutil
import statistics
import tempfile
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import sync_playwright

from guidegen.flow import publish
from tests.invention.__main__ import write_library

ROOT = Path(__file__).parent.parent.parent
FRAME_MS = 16
RERANK = """weightings => weightings.map((points) => {
  const { rank, show } = guidegenBracket.weighing;
  const began = performance.now();
  rank(points);
  const ranked = performance.now();
  show(points);
  document.body.getBoundingClientRect();
  return [ranked - began, performance.now() - ranked];
})"""


@dataclass(frozen=True, slots=True)
class Figures:
    """What was measured on one page."""

    units: int
    sums_ms: list[float]
    whole_ms: list[float]


def published(folder: Path, library: int) -> Path:
    """A library of so many units, published; its folder."""
    content, output = folder / "content", folder / "output"
    content.mkdir()
    for name in ("guide.yaml", "policy.yaml", "parts.yaml"):
        shutil.copy(ROOT / "content" / name, content / name)
    write_library(content, count=library)
    publish(content, output)
    return output


def measure(output: Path, times: int) -> Figures:
    """The fullest bracket, ranked again so many times by random weights."""
    rolled = random.Random(1)
    asked = [[rolled.randint(0, 100) for _ in range(5)] for _ in range(times)]
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": 1280, "height": 900})
        counts = {}
        for path in sorted(output.glob("watts/*/index.html")):
            page.goto(path.as_uri())
            counts[path] = page.evaluate("window.guidegenBracket?.weighing?.data.units.length ?? 0")
        fullest = max(counts, key=lambda path: counts[path])
        page.goto(fullest.as_uri())
        page.evaluate(RERANK, asked[:5])
        taken = page.evaluate(RERANK, asked)
        browser.close()
    return Figures(counts[fullest], [sums for sums, _ in taken], [whole for _, whole in taken])


def main() -> None:
    """Publishes, measures and prints."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--library", type=int, default=500, help="units of the whole library")
    parser.add_argument("--times", type=int, default=200)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        found = measure(published(Path(folder), asked.library), asked.times)
    whole = sorted(found.whole_ms)
    print(f"{found.units} placed units, ranked again {asked.times} times at no throttling")
    print(f"the sums alone {statistics.median(found.sums_ms):.1f} ms in the median")
    print(f"table and layout included {statistics.median(whole):.1f} ms in the median, {whole[int(0.95 * len(whole))]:.1f} ms "
          f"in 95 of 100, at most {FRAME_MS} wanted")


if __name__ == "__main__":
    main()
