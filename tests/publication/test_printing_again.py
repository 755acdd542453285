"""Pages made again and again in one process, as the preview makes them."""

import shutil
from pathlib import Path
from threading import Event, Thread

import pytest

from guidegen import sharing
from guidegen.presentation.sheets import PagePlan
from guidegen.publication import Printer, find_theme, rendering
from tests.publication.fixtures.guide import small_guide

MANY = 16
"""So many pages are worth a second process."""
THEME = find_theme("test-sheet", Path("/nowhere"))


def test_a_sheet_that_changed_is_compiled_anew(tmp_path: Path) -> None:
    """Compiled sheets are kept by their text, also those that others are put together from."""
    theme = tmp_path / "themes" / "test-sheet"
    shutil.copytree(THEME, theme)
    guide = small_guide()

    def printed() -> str:
        return Printer.of(guide, theme).page(guide.sheets[0]).file.content.decode()

    before, again = printed(), printed()
    base = theme / "sheets" / "base.html"
    base.write_text(base.read_text(encoding="utf-8").replace('<main id="content"', '<main class="anew" id="content"'), encoding="utf-8")

    assert before == again
    assert ('<main class="anew"' in before, '<main class="anew"' in printed()) == (False, True)


def test_a_process_with_other_threads_is_not_forked(monkeypatch: pytest.MonkeyPatch) -> None:
    """With a thread beside, many pages are made one after the other; alone, they are shared out."""
    asked = []

    def forked(_: object, parts: tuple[range, ...], processes: int) -> None:
        asked.append((parts, processes))
        raise InterruptedError

    monkeypatch.setattr(rendering, "shared_out", forked)
    monkeypatch.setattr(sharing, "cores", lambda: 2)
    guide = small_guide()
    printer, sheet = Printer.of(guide, THEME), guide.sheets[0]
    plans = (PagePlan(address=sheet.address, key="", compose=lambda: sheet),) * MANY
    done = Event()
    beside = Thread(target=done.wait)
    beside.start()
    paths = {page.file.path for page in printer.planned(plans)}
    done.set()
    beside.join()
    monkeypatch.setattr(sharing, "active_count", lambda: 1)
    with pytest.raises(InterruptedError):
        list(printer.planned(plans))

    assert (1, [((range(MANY // 2), range(MANY // 2, MANY)), 2)]) == (len(paths), asked)
