"""``python3 -m tests.speed.references KIND CONTENT SITE``: the same work done plainly, to measure publication against.

``charts``: as many charts as the site has, each drawn with a fresh matplotlib ``Figure`` and saved as SVG, in one process.
``pages``: the site's pages rendered from the same sheets with ready values, and nothing checked.
``copy``: the finished site copied. Each prints its seconds without start-up.
"""

import io
import re
import shutil
import sys
import tempfile
import time
from pathlib import Path

from matplotlib.figure import Figure

from guidegen.flow import composed
from guidegen.publication import find_theme
from guidegen.publication.rendering import Printer

_CHART = re.compile(rb'<figure class="drawn"')
LOADS = tuple(range(2, 111, 9))


def charts(site: Path) -> float:
    """Seconds for as many plain charts as the site shows."""
    count = sum(len(_CHART.findall(page.read_bytes())) for page in site.rglob("*.html"))
    began = time.perf_counter()
    for i in range(count):
        figure = Figure(figsize=(5.2, 2.8))
        axes = figure.subplots()
        axes.plot(LOADS, [80 + (i + load) % 15 for load in LOADS])
        axes.set_xlabel("Load, %")
        axes.set_ylabel("Efficiency, %")
        figure.savefig(io.StringIO(), format="svg")
    return time.perf_counter() - began


def pages(content: Path) -> float:
    """Seconds for the sheets alone, from values that are ready."""
    publication = composed(content)
    printer = Printer.of(publication, find_theme("test-sheet", content.parent / "themes"))
    took = 0.0
    for sheet in (*publication.sheets, *(plan.compose() for plan in publication.plans)):
        began = time.perf_counter()
        printer.environment.get_template(f"{sheet.kind}.html").render(sheet=sheet).encode()
        took += time.perf_counter() - began
    return took


def copy(site: Path) -> float:
    """Seconds for a copy of the site."""
    with tempfile.TemporaryDirectory() as folder:
        began = time.perf_counter()
        shutil.copytree(site, Path(folder) / "copy")
        return time.perf_counter() - began


def main() -> None:
    """Measures the kind that is asked for."""
    kind, content, site = sys.argv[1], Path(sys.argv[2]), Path(sys.argv[3])
    print({"charts": lambda: charts(site), "pages": lambda: pages(content), "copy": lambda: copy(site)}[kind]())


if __name__ == "__main__":
    main()
