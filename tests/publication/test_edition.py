"""The files of an edition and what is told about them."""

from dataclasses import replace
from xml.etree import ElementTree as ET

from guidegen.publication.edition import robots, sitemap
from tests.publication.fixtures.guide import SITE

PAGES = ("index.html", "unit/one/index.html", "404.html")


def test_the_sitemap_lists_clean_addresses() -> None:
    """Whole addresses without file names, dated by the edition; the page for lost readers is not in it."""
    made = sitemap(replace(SITE, public_address="https://bench.example/a&b/"), PAGES)

    root = ET.fromstring(made.content)
    space = "{http://www.sitemaps.org/schemas/sitemap/0.9}"

    assert [("https://bench.example/a&b/", "2026-11-20"), ("https://bench.example/a&b/unit/one/", "2026-11-20")] == [
        (url.findtext(f"{space}loc"), url.findtext(f"{space}lastmod")) for url in root]


def test_robots_find_the_sitemap() -> None:
    """Every robot is welcome and told where the sitemap is."""
    assert b"User-agent: *\nAllow: /\nSitemap: https://bench.example/guide/sitemap.xml\n" == robots(SITE).content
