"""Headings that can be linked to."""

from bs4 import BeautifulSoup

from guidegen.publication.headings import headings_linked


def test_a_heading_leads_to_itself() -> None:
    """Its words are the link; one without an anchor, or with a link in it, stays; so does all outside the main part."""
    kept = '<h2 id="a">out</h2><main><h2>none</h2><h3 id="b"><a href="#b">x</a></h3></main><h2 id="c">out</h2>'

    assert kept == headings_linked(kept)
    assert '<main><h3 class="x" id="b"><a class="here" href="#b">B &amp; b</a></h3></main>' == headings_linked(
        '<main><h3 class="x" id="b">B &amp; b</h3></main>')


def test_every_heading_of_the_demo_has_an_anchor_and_a_link_to_it(pages: dict[str, BeautifulSoup]) -> None:
    """The link is in the heading, or bears its words elsewhere on the page; no anchor is made of a count."""
    bare = []
    for path, page in pages.items():
        for heading in page.select("main h2, main h3"):
            anchor = str(heading.get("id", ""))
            links = page.select(f'main a[href="#{anchor}"]') if anchor else []
            words = heading.get_text(" ", strip=True)
            if not any(a.get_text(" ", strip=True) and a.get_text(" ", strip=True) in words for a in links):
                bare.append((path, words))

    assert [] == bare


def test_the_anchors_of_a_report_do_not_depend_on_the_unit(pages: dict[str, BeautifulSoup]) -> None:
    """The same parts, the same anchors; a part that a unit lacks is left out."""
    units = [page for path, page in pages.items() if path.startswith("unit/") and path.count("/") == 2]
    fixed = {"in-short", "against-label", "curves", "limits", "protected", "measured", "inside", "prices", "before",
             "evidence", "cautions", "corrections", "since"}

    assert all({str(h["id"]) for h in page.select("main h2")} <= fixed for page in units)
