"""The files of an edition and what is told about them."""

from dataclasses import replace
from xml.etree import ElementTree as ET

import pytest

from guidegen.errors import PublicationError
from guidegen.publication.edition import Edition, File, bound_edition
from tests.publication.fixtures.guide import SITE

PAGES = tuple(File(path=path, content=b"x") for path in ("index.html", "unit/one/index.html", "404.html"))


def test_the_sitemap_lists_clean_addresses() -> None:
    """Whole addresses without file names, dated by the edition; the page for lost readers is not in it."""
    edition = bound_edition(replace(SITE, public_address="https://bench.example/a&b/"), pages=PAGES, others=())

    root = ET.fromstring(next(file.content for file in edition.files if file.path == "sitemap.xml"))
    space = "{http://www.sitemaps.org/schemas/sitemap/0.9}"

    assert [("https://bench.example/a&b/", "2026-11-20"), ("https://bench.example/a&b/unit/one/", "2026-11-20")] == [
        (url.findtext(f"{space}loc"), url.findtext(f"{space}lastmod")) for url in root]


def test_robots_find_the_sitemap() -> None:
    """Every robot is welcome and told where the sitemap is."""
    edition = bound_edition(SITE, pages=PAGES, others=())

    robots = next(file.content for file in edition.files if file.path == "robots.txt")

    assert b"User-agent: *\nAllow: /\nSitemap: https://bench.example/guide/sitemap.xml\n" == robots


@pytest.mark.parametrize("path", ["../x.html", "/etc/x", ".gitignore", "a/.hidden", "a//b", "a\\b", "", "a/"])
def test_an_unfit_path_makes_no_edition(path: str) -> None:
    """Paths that climb, hide or end in nothing are refused."""
    with pytest.raises(PublicationError, match="expected plain names"):
        Edition(files=(File(path=path, content=b""),))


def test_two_files_of_one_name_make_no_edition() -> None:
    """Names that differ by large and small letters alone would fall together on some file systems."""
    with pytest.raises(PublicationError, match=r"A\.html: came twice"):
        Edition(files=(File(path="a.html", content=b""), File(path="A.html", content=b"")))


def test_the_build_follows_from_the_content() -> None:
    """Equal files have an equal build id in whatever order; a changed byte changes it."""
    one, other = PAGES[0], PAGES[1]

    assert Edition(files=(one, other)).build == Edition(files=(other, one)).build
    assert Edition(files=(one, other)).build != Edition(files=(one, replace(other, content=b"y"))).build
