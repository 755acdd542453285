"""Pages made again and again in one process, as the preview makes them."""

import os
import shutil
from dataclasses import replace
from pathlib import Path
from threading import Event, Thread

import pytest

from guidegen import sharing
from guidegen.errors import PublicationError
from guidegen.presentation.sheets import DrawingPlan, PagePlan, ProseSheet
from guidegen.press import File, Press
from guidegen.publication import Printer, find_theme, making, publish_edition
from guidegen.publication.proofs import Proofs, Target
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

    monkeypatch.setattr(making, "shared_out", forked)
    monkeypatch.setattr(sharing, "cores", lambda: 2)
    guide = small_guide()
    printer, sheet = Printer.of(guide, THEME), guide.sheets[0]
    plans = (PagePlan(address=sheet.address, key="", compose=lambda: sheet),) * MANY
    done = Event()
    beside = Thread(target=done.wait)
    beside.start()
    paths = {plan.address for plan, _ in making.made(printer, (), plans)}
    done.set()
    beside.join()
    monkeypatch.setattr(sharing, "active_count", lambda: 1)
    with pytest.raises(InterruptedError):
        list(making.made(printer, (), plans))

    assert (1, [((range(MANY // 2), range(MANY // 2, MANY)), 2)]) == (len(paths), asked)


@pytest.mark.parametrize("cores", [1, 2])
def test_a_picture_is_drawn_beside_the_pages(monkeypatch: pytest.MonkeyPatch, cores: int) -> None:
    """By a process of its own where there is a core for it; either way all is made, each plan with what came of it."""
    monkeypatch.setattr(sharing, "cores", lambda: cores)
    monkeypatch.setattr(sharing, "active_count", lambda: 1)
    guide = small_guide()
    printer, sheet, here = Printer.of(guide, THEME), guide.sheets[0], str(os.getpid())
    drawing = DrawingPlan(address="cards/a.png", key="a", draw=lambda: str(os.getpid()).encode())
    plan = PagePlan(address=sheet.address, key="b", compose=lambda: sheet)
    found = {one.address: made for one, made in making.made(printer, (drawing,), (plan,))}
    picture = found["cards/a.png"]

    assert {"cards/a.png", sheet.address} == found.keys()
    assert isinstance(picture, File)
    assert (cores == 1) == (picture.content.decode() == here)
    assert printer.page(sheet) == found[sheet.address]


def test_links_of_a_page_that_stands_are_looked_at_when_what_they_lead_to_goes(tmp_path: Path) -> None:
    """A heading that goes from a page made anew, and a page that goes: those that stand and lead there stop the publication."""
    press, whole = Press.of(tmp_path / "site"), small_guide()
    page = next(sheet for sheet in whole.sheets if sheet.address == "how-we-test/")
    assert isinstance(page, ProseSheet)
    without_heading = replace(page, sections=tuple(one for one in page.sections if one.id != "samples"))
    others = tuple(sheet for sheet in whole.sheets if sheet is not page)
    with press.held():
        publish_edition(whole, THEME, press=press, program="p")
    for sheets, why in (((*others, without_heading), "has no #samples"), (others, "there is no how-we-test/index.html")):
        with press.held(), pytest.raises(PublicationError, match=why) as caught:
            publish_edition(replace(whole, sheets=sheets), THEME, press=press, program="p")
        assert "watts/450/index.html: line" in str(caught.value)


def test_links_of_pages_that_stand_are_left_alone_where_nothing_goes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Only those of the page made anew are looked at."""
    press, whole = Press.of(tmp_path / "site"), small_guide()
    page = next(sheet for sheet in whole.sheets if sheet.address == "how-we-test/")
    with press.held():
        publish_edition(whole, THEME, press=press, program="p")
    asked: list[str] = []
    found = Proofs._target

    def watched(self: Proofs, path: str, link: str) -> Target:
        asked.append(path)
        return found(self, path, link)

    monkeypatch.setattr(Proofs, "_target", watched)
    sheets = tuple(replace(sheet, description="Other words.") if sheet is page else sheet for sheet in whole.sheets)
    with press.held():
        publish_edition(replace(whole, sheets=sheets), THEME, press=press, program="p")

    assert {"how-we-test/index.html"} == set(asked)
