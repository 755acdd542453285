"""Links of a page: from an address counted from the root of the site to what stands in ``href``."""

import re
from urllib.parse import urlsplit

from guidegen.errors import PublicationError
from guidegen.presentation.addresses import LOST, relative

OUTSIDE = ("https://", "mailto:")
"""Beginnings of addresses that lead out of the site and are kept as they are."""
_UNFIT = re.compile(r"^[/\\]|^[^/#]*:|[\x00-\x20\\]|(^|/)\.\.?(/|$)")


def file_of(address: str) -> str:
    """The file of a page's address.

    >>> file_of(""), file_of("unit/harrow-one/"), file_of("404.html")
    ('index.html', 'unit/harrow-one/index.html', '404.html')
    """
    return f"{address}index.html" if address == "" or address.endswith("/") else address


def current_from(page: str) -> str:
    """What stands in ``href`` on the page of a frozen edition for the same page of the current guide.

    A frozen edition stands two folders below the guide's root.

    >>> current_from("unit/harrow-one/")
    '../../../../unit/harrow-one/index.html'
    """
    return "../" * (page.count("/") + 2) + file_of(page)


def link_from(page: str, target: str, public_address: str) -> str:
    """What stands in ``href`` on the page for an address counted from the root of the site.

    Links are relative and name the file, so that the site works in any folder and from a file system. The page for a
    lost reader is served at any depth: its links begin at the root of the host.

    >>> link_from("unit/harrow-one/", "watts/650/#value", "https://lab.example/")
    '../../watts/650/index.html#value'
    >>> link_from("404.html", "units/", "https://lab.example/guide/")
    '/guide/units/'
    """
    if target.startswith((*OUTSIDE, "#")):
        return target
    if _UNFIT.search(target):
        raise PublicationError(
            f"{file_of(page)}: came the address {target!r}, expected one counted from the root of the site or an "
            "https address")
    if page == LOST:
        return urlsplit(public_address).path + target
    return relative(page, target)
