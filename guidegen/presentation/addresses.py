"""Where things stand on the site: every address is made here, from the root, and never changes its form."""

from guidegen.records import Bracket, Manuscript, Unit

HOME = ""
UNITS = "units/"
DATA = "data/"
CORRECTIONS = "corrections/"
WORDS = "words/"
LOST = "404.html"
ARCHIVE = "archive/"
CHANGES = "changes/"
PRINCIPLES_PAGE = "how-we-test"
"""Manuscript that says how the guide works."""


def bracket_address(bracket: Bracket) -> str:
    """Address of a bracket's page."""
    return f"watts/{bracket.id}/"


def unit_address(unit: Unit, anchor: str = "") -> str:
    """Address of a unit's page, or of a place on it."""
    return f"unit/{unit.id}/{'#' + anchor if anchor else ''}"


def bench_address(unit: Unit, anchor: str = "") -> str:
    """Address of a unit's bench record, or of a number in it."""
    return f"bench/{unit.id}/{'#' + anchor if anchor else ''}"


def bench_beside(address: str) -> str:
    """Address of the bench record that goes with the address of a unit's page; empty where it is no such address.

    >>> bench_beside("unit/harrow-one/"), bench_beside("watts/650/")
    ('bench/harrow-one/', '')
    """
    return f"bench/{address.removeprefix('unit/')}" if address.startswith("unit/") else ""


def original_address(file: str) -> str:
    """Address of the copy of a record file.

    >>> original_address("units/harrow-one/2026-02-10.yaml")
    'data/records/harrow-one/2026-02-10.yaml'
    """
    return f"{DATA}records/{file.removeprefix('units/')}"


def edition_address(name: str) -> str:
    """Address of the first page of a frozen edition."""
    return f"{ARCHIVE}{name}/"


def page_address(page: Manuscript | str) -> str:
    """Address of a page of prose."""
    return f"{page if isinstance(page, str) else page.id}/"


def anchor(key: str) -> str:
    """An anchor made from a key.

    >>> anchor("ripple.12v.worst")
    'ripple-12v-worst'
    """
    return key.replace(".", "-").replace("_", "-")


def relative(page: str, target: str) -> str:
    """The way from a page to another place, so that it works under any folder and from a file system.

    >>> relative("unit/harrow-one/", "watts/650/#value")
    '../../watts/650/index.html#value'
    >>> relative("", "unit/harrow-one/")
    'unit/harrow-one/index.html'
    """
    if target.startswith(("https://", "mailto:", "#")):
        return target
    path, _, fragment = target.partition("#")
    file = path + "index.html" if path == "" or path.endswith("/") else path
    return "../" * page.count("/") + file + (f"#{fragment}" if fragment else "")
