"""Numbers and their units (and a coverage factor), kept on one line wherever a page prints them (SI brochure, 5.4.3)."""

import re

_UNITS = r"(?:W|kW|V|mV|A|mA|µs|ms|mm|m|°C|Hz|kHz|MHz|µF|kWh|dB\(A\)|dB|%|BTU/h|Ω|1/min)"
_APART = re.compile(rf" (?<=[0-9] )(?={_UNITS}(?![A-Za-z0-9]))| (?<=\bk )(?== [0-9])| (?<=\bk = )(?=[0-9])")
NO_BREAK = "\N{NO-BREAK SPACE}"


def units_kept(html: str) -> str:
    """The page with a no-break space between each number and its unit, and inside ``k = 2``; what stands inside tags is left alone.

    >>> units_kept('<path d="M 1 V 2"/>800 to 900 W').replace(NO_BREAK, "~")
    '<path d="M 1 V 2"/>800 to 900~W'
    >>> units_kept("doubt (k = 2)").replace(NO_BREAK, "~")
    'doubt (k~=~2)'
    """
    tags_end = html.rfind(">")

    def kept(blank: re.Match[str]) -> str:
        place = blank.start()
        inside = place < tags_end and html.rfind("<", 0, place) > html.rfind(">", 0, place)
        return blank[0] if inside else NO_BREAK

    return _APART.sub(kept, html)
