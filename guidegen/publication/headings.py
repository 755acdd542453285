"""Headings that can be linked to: the words of a heading with an anchor lead to the anchor."""

import re

_HEADING = re.compile(r"<(h[23])( [^>]*?)?>(.*?)</\1>", re.DOTALL)
_ID = re.compile(r'(?:^| )id="([^"]+)"')


def headings_linked(html: str) -> str:
    """The page with each second- and third-level heading of its main part a link to itself.

    A heading that holds a link already, or has no anchor, stays as it is.

    >>> headings_linked('<main><h2 id="tested">Tested</h2></main>')
    '<main><h2 id="tested"><a class="here" href="#tested">Tested</a></h2></main>'
    """
    start, end = html.find("<main"), html.find("</main>")
    return html if start < 0 else html[:start] + _HEADING.sub(_linked, html[start:end]) + html[end:]


def _linked(heading: re.Match[str]) -> str:
    anchor = _ID.search(heading[2] or "")
    if anchor is None or "<a " in heading[3]:
        return heading[0]
    return f'<{heading[1]}{heading[2]}><a class="here" href="#{anchor[1]}">{heading[3]}</a></{heading[1]}>'
