"""Links of pages: relative, and nothing that leads elsewhere by accident."""

from posixpath import join, normpath
from urllib.parse import urljoin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.errors import PublicationError
from guidegen.publication.links import file_of, link_from

NAMES = st.from_regex(r"[a-z0-9][a-z0-9-]{0,8}", fullmatch=True)
ADDRESSES = st.lists(NAMES, max_size=3).map(lambda names: "".join(f"{name}/" for name in names))
PUBLIC = "https://bench.example/guide/"


@given(page=ADDRESSES, target=ADDRESSES.filter(bool), fragment=NAMES)
def test_a_link_leads_to_the_file_of_its_target(page: str, target: str, fragment: str) -> None:
    """From the folder of any page, the link resolves to the target's file and keeps the anchor."""
    link = link_from(page, f"{target}#{fragment}", PUBLIC)

    path, _, kept = link.partition("#")

    assert (file_of(target), fragment) == (normpath(join(page, path)), kept)


@given(page=ADDRESSES, target=ADDRESSES)
def test_a_link_works_under_any_public_address(page: str, target: str) -> None:
    """Resolved as a browser does (RFC 3986 section 5.2), the link stays below the public address."""
    assert PUBLIC + file_of(target) == urljoin(PUBLIC + file_of(page), link_from(page, target, PUBLIC))


@pytest.mark.parametrize("address", ["https://lantern.example/a?b=c#d", "mailto:errata@bench.example", "#ripple"])
def test_outside_addresses_and_anchors_pass(address: str) -> None:
    """What leads out of the site or stays on the page is kept as it is."""
    assert address == link_from("unit/one/", address, PUBLIC)


@pytest.mark.parametrize("depth", ["units/", "watts/850/#tested", "assets/style.css"])
def test_the_lost_page_links_from_the_root(depth: str) -> None:
    """The page for lost readers is served at any depth, so its links begin at the root of the host."""
    assert f"/guide/{depth}" == link_from("404.html", depth, PUBLIC)


@pytest.mark.parametrize("address", [
    "javascript:alert(1)", "JavaScript:alert(1)", "data:text/html,x", "http://plain.example/", "//host.example/", "/etc/",
    "\\\\host\\x", "../up/", "unit/../../x/", "java\nscript:x", " javascript:x",
])
def test_an_address_of_another_kind_is_refused(address: str) -> None:
    """Scripts, plain http, other hosts and ways upwards are no addresses of the site."""
    with pytest.raises(PublicationError, match="expected one counted from the root"):
        link_from("", address, PUBLIC)
