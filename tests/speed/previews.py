"""Seconds from a save to the page that is shown again, and to the desk that follows it, in a running preview."""

import http.client
import re
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

from tests.speed.processes import ROOT

PATIENCE_S = 120.0
"""Seconds after which a preview that shows nothing new is given up."""


def saves(content: Path, edit: Callable[[Path], None], times: int) -> tuple[float, float]:
    """Medians of so many saves of an edit: seconds until the pages are shown, and until the desk is."""
    process = subprocess.Popen([sys.executable, "-u", "-m", "guidegen", "preview", "--port", "0", "--content", str(content)],
                               cwd=ROOT, stdout=subprocess.PIPE, text=True)
    try:
        found = re.search(r"127\.0\.0\.1:([0-9]+)/ shows", process.stdout.readline() if process.stdout else "")
        if found is None:
            raise SystemExit("the preview did not begin")
        port = int(found[1])
        token = re.search(r"/refresh/([^/]+)/", _get(port, "/"))
        if token is None:
            raise SystemExit("the preview shows a page that does not refresh itself")
        state, desks = (f"/refresh/{token[1]}/{name}" for name in ("state", "desks"))
        _wait(port, desks, "1")
        pages, later = [], []
        for _ in range(times + 1):
            before = _get(port, state), _get(port, desks)
            began = time.perf_counter()
            edit(content)
            _wait(port, state, before[0])
            pages.append(time.perf_counter() - began)
            _wait(port, desks, before[1])
            later.append(time.perf_counter() - began)
            time.sleep(0.3)
        return statistics.median(pages[1:]), statistics.median(later[1:])
    finally:
        process.terminate()
        process.wait()


def _get(port: int, path: str) -> str:
    with closing(http.client.HTTPConnection("127.0.0.1", port, timeout=20)) as connection:
        connection.request("GET", path)
        with connection.getresponse() as answer:
            return answer.read().decode()


def _wait(port: int, path: str, before: str) -> None:
    """Until the answer is another one than before."""
    ends = time.perf_counter() + PATIENCE_S
    while _get(port, path) == before:
        if time.perf_counter() > ends:
            raise SystemExit(f"nothing new was shown in {PATIENCE_S:.0f} seconds")
        time.sleep(0.01)
