"""``python3 -m tests.speed.weights``: how long Chromium takes to rank a bracket of 60 units again, page and all.

Each run ranks the table by other weights, puts the rows in order and makes the browser lay the page out, without
throttling: once with a slider moved by one step, as a reader drags it, once with all sliders thrown at random. A frame has
16 ms. Beside the time on the clock stands the processor time of the page's thread, which other work does not lengthen.
"""

import argparse
import random
import shutil
import statistics
import tempfile
from pathlib import Path

from playwright.sync_api import CDPSession, Page, sync_playwright

from guidegen.flow import publish
from tests.invention.__main__ import write_library

ROOT = Path(__file__).parent.parent.parent
UNITS = 60
RERANK = """weightings => weightings.map((points) => {
  const began = performance.now();
  guidegenBracket.weighing.show(points);
  document.body.getBoundingClientRect();
  return performance.now() - began;
})"""
SUMS = """weightings => weightings.map((points) => {
  const began = performance.now();
  guidegenBracket.weighing.rank(points);
  return performance.now() - began;
})"""


def published(folder: Path, library: int) -> Path:
    """A library of so many units, published; its folder."""
    content, output = folder / "content", folder / "output"
    content.mkdir()
    for name in ("guide.yaml", "policy.yaml", "parts.yaml"):
        shutil.copy(ROOT / "content" / name, content / name)
    write_library(content, count=library)
    publish(content, output)
    return output


def open_nearest(page: Page, output: Path) -> int:
    """Opens the bracket with the number of placed units nearest to what is wanted; that number."""
    counts = {}
    for path in sorted(output.glob("watts/*/index.html")):
        page.goto(path.as_uri())
        counts[path] = page.evaluate("window.guidegenBracket?.weighing?.data.units.length ?? 0")
    nearest = min(counts, key=lambda path: abs(counts[path] - UNITS))
    page.goto(nearest.as_uri())
    return int(counts[nearest])


def processor_s(session: CDPSession) -> float:
    """Processor time of the page's tasks so far."""
    return float(next(one["value"] for one in session.send("Performance.getMetrics")["metrics"] if one["name"] == "TaskDuration"))


def measure(page: Page, name: str, asked: list[list[float]]) -> None:
    """Ranks by each weighting and prints the median."""
    session = page.context.new_cdp_session(page)
    session.send("Performance.enable", {"timeDomain": "threadTicks"})
    page.evaluate(RERANK, asked[:5])
    before = processor_s(session)
    taken = page.evaluate(RERANK, asked)
    used = 1000 * (processor_s(session) - before) / len(asked)
    print(f"{name:34}{statistics.median(taken):8.1f}{sorted(taken)[int(0.95 * len(taken))]:12.1f}{used:14.1f}")


def main() -> None:
    """Publishes, measures and prints."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--library", type=int, default=420, help="units of the whole library")
    parser.add_argument("--times", type=int, default=60)
    asked = parser.parse_args()
    rolled = random.Random(1)  # noqa: S311
    thrown = [[float(rolled.randint(0, 100)) for _ in range(5)] for _ in range(asked.times)]
    stepped = [[70.0, 60.0, 80.0 - i, 100.0, 90.0] for i in range(1, min(asked.times, 80) + 1)]
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        output = published(Path(folder), asked.library)
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium") or shutil.which("chromium-headless-shell"), args=["--no-sandbox"])
        for width in (1280, 390):
            page = browser.new_page(viewport={"width": width, "height": 900})
            units = open_nearest(page, output)
            sums = statistics.median(page.evaluate(SUMS, thrown))
            print(f"{units} units, window of {width} px; the sums alone {sums:.1f} ms in the median")
            print(f"{'':34}{'median':>8}{'95 of 100':>12}{'processor':>14}")
            measure(page, "a slider moved by one step, ms", stepped)
            measure(page, "all sliders thrown at random, ms", thrown)
        browser.close()


if __name__ == "__main__":
    main()
