"""Proof-reading finds what a reader would stumble over."""

import pytest

from guidegen.errors import PublicationError
from guidegen.publication.page_readings import PageReading
from guidegen.publication.proofs import Proofs

PUBLIC = "https://bench.example/guide/"
SOUND = '<title>{title}</title><h1 id="top">One</h1>{more}'


def pages(more: str, title: str) -> dict[str, str]:
    """Two pages; the first holds what is on trial."""
    return {"index.html": SOUND.format(title=title, more=more), "unit/one/index.html": SOUND.format(title="Other", more="")}


def proofs(more: str = "", title: str = "First") -> Proofs:
    """The two pages read, beside a data file."""
    found = {path: PageReading.of(text) for path, text in pages(more, title).items()}
    return Proofs(found, {*found, "data.csv"}, PUBLIC)


def problems(more: str = "", title: str = "First") -> tuple[str, ...]:
    """What proof-reading says of them."""
    return proofs(more, title).problems(pages(more, title).__getitem__)


@pytest.mark.parametrize("more", [
    '<a href="unit/one/index.html#top">a</a><a href="#top">b</a><a href="data.csv">c</a>',
    f'<a href="/guide/unit/one/">a</a><link rel="canonical" href="{PUBLIC}">',
    '<a href="https://lantern.example/#anything">a</a><a href="mailto:a@b.example">b</a>',
    '<img src="data:image/png;base64,x" alt="a strip">',
    '<svg role="img" aria-labelledby="t"><title id="t">A strip</title><path d=""/></svg><svg aria-hidden="true"/>',
])
def test_sound_pages_have_no_faults(more: str) -> None:
    """Links that lead somewhere, named drawings and drawings that are decoration pass."""
    assert () == problems(more)


@pytest.mark.parametrize(("more", "fault"), [
    ('<a href="unit/two/index.html">a</a>', "there is no unit/two/index.html"),
    ('<a href="unit/one/index.html#gone">a</a>', "unit/one/index.html has no #gone"),
    ('<a href="#gone">a</a>', "index.html has no #gone"),
    ('<link rel="stylesheet" href="assets/style.css">', "there is no assets/style.css"),
    ('<script src="gone.js"></script>', "there is no gone.js"),
    ('<svg aria-hidden="true"><use href="#frame"/></svg>', "index.html has no #frame"),
    ('<a href="http://plain.example/">a</a>', "it leaves the site without https"),
    ('<a href="javascript:x">a</a>', "it leaves the site without https"),
    ('<p id="top">a</p>', "the id 'top' stands 2 times"),
    ("<h1>Two</h1>", "2 headings of the first level"),
    ('<img src="data.csv" alt=" ">', "a picture without words"),
    ('<svg role="img"><path d=""/></svg>', "a drawing without a name"),
    ("<svg><title>A</title></svg>", "a drawing without a name"),
    ('<p style="width: 3%">a</p>', "a style attribute"),
])
def test_a_planted_fault_is_found(more: str, fault: str) -> None:
    """Each kind of fault is reported with its page."""
    found = problems(more)

    assert [True] == ["index.html: " in one and fault in one for one in found]


def test_a_title_used_twice_is_found() -> None:
    """Two pages of one title are both named."""
    found = problems(title="Other")

    assert ["index.html: the title 'Other' is that of another page, too",
            "unit/one/index.html: the title 'Other' is that of another page, too"] == list(found)


def test_a_page_without_a_title_is_found() -> None:
    """An empty title is a fault, and the title of a drawing is no title of the page."""
    found = problems(title=" ", more='<svg role="img"><title>A</title></svg>')

    assert ("index.html: no title",) == found


def test_all_faults_are_told_at_once() -> None:
    """The error lists each fault on a line of its own."""
    wrong = proofs('<h1>Two</h1><a href="#gone">a</a>')

    with pytest.raises(PublicationError) as caught:
        wrong.pass_or_refuse(pages('<h1>Two</h1><a href="#gone">a</a>', "First").__getitem__)

    assert 2 == len(str(caught.value).splitlines())


def test_a_reading_is_kept_as_it_was() -> None:
    """What is remembered of a sound page is what was read on it."""
    found = PageReading.of(pages('<a href="#top">a</a>', "First")["index.html"])

    assert found == PageReading.from_kept(found.kept())
