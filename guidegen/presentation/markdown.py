"""Markdown set as HTML: no raw HTML, links and pictures only to places that are known or plainly outside."""

import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field

from markdown_it import MarkdownIt
from markdown_it.renderer import RendererHTML
from markdown_it.token import Token

from guidegen.errors import Fault, nearest_name
from guidegen.origins import Origin
from guidegen.presentation.addresses import relative
from guidegen.records import Picture

INTERNAL = re.compile(r"^(unit|watts|page|words):([a-z0-9._-]*)(#[a-z0-9-]+)?$")
OUTSIDE = re.compile(r"https://[^\s/?#@\\]+([/?#]\S*)?|mailto:[^\s@]+@[^\s@]+")
_ADDRESSES = "an address that begins with https:// or mailto:, or with one of unit:, watts:, page:, words:"
_NAMED = {
    "unit": "the short name of a unit, as its folder has it", "watts": "the short name of a bracket of guide.yaml",
    "page": "the name of a page, as its file in pages/ has it, or home, units or data",
    "words": "the anchor of a heading of pages/words.md",
}
_Wrong = tuple[str, str, str]
"""What came, what was expected, and what was meant or nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a text of Markdown stands, in the content and on the site."""

    origin: Origin
    """Where it is written."""
    first_line: int
    """Line of the file on which it begins; 0 where only the field is known."""
    page: str
    """Address of the page that shows it."""
    pictures: Mapping[str, Picture]
    """Pictures of the content, by file."""
    places: Mapping[str, Collection[str]] = field(default_factory=dict)
    """Names that addresses of a kind may have; of a kind that isn't here, any."""


def set_markdown(text: str, place: Place, faults: list[Fault], *, inline: bool = False) -> str:
    """The text as HTML; a link or picture that leads nowhere is added to ``faults`` and left without its address."""
    markdown = MarkdownIt("js-default", {"html": False, "typographer": False})
    markdown.validateLink = _any  # type: ignore[method-assign,assignment]
    markdown.add_render_rule("image", _picture)
    environment = {"place": place}
    tokens = markdown.parseInline(text, environment) if inline else markdown.parse(text, environment)
    for line, token in _inner(tokens):
        wrong = _settled(token, place)
        if wrong is not None:
            at = place.first_line + line if place.first_line else 0
            faults.append(
                Fault(origin=place.origin, line=at, came=wrong[0], expected=wrong[1], nearest=wrong[2], rule="prose")
            )
    return str(markdown.renderer.render(tokens, markdown.options, environment))


def _any(address: str) -> bool:
    """Every address becomes a link first, so that what is wrong with it can be told."""
    del address
    return True


def _inner(tokens: list[Token]) -> Iterator[tuple[int, Token]]:
    """Links and pictures with the line of the paragraph they stand in, from 0."""
    for block in tokens:
        for token in block.children or ():
            if token.type in ("link_open", "image"):
                yield (block.map or [0])[0], token


def _settled(token: Token, place: Place) -> _Wrong | None:
    """The token with its address on the site, or what is wrong with it: what came, what was expected, what was meant."""
    name = "href" if token.type == "link_open" else "src"
    address = str(token.attrGet(name) or "")
    if name == "src":
        wrong = _wrong_picture(address, token, place)
        target = address
    else:
        target = _target(address)
        wrong = _lost(address, place) if target else (f"the link {_short(address)}", _ADDRESSES, _meant(address))
    if wrong is None:
        token.attrSet(name, relative(place.page, target))
    else:
        token.attrs.pop(name, None)
    return wrong


def _target(address: str) -> str:
    """Where a link leads, from the root of the site or outside it; empty where it may not."""
    if OUTSIDE.fullmatch(address):
        return address
    internal = INTERNAL.match(address)
    if internal is None:
        return ""
    kind, name, fragment = internal.groups()
    fragment = f"#{name}" if kind == "words" and name else fragment
    target = {"unit": f"unit/{name}/", "watts": f"watts/{name}/", "words": "words/", "page": f"{name}/"}[kind]
    target = "" if (kind, name) == ("page", "home") else target
    return target + (fragment or "") or "index.html"


def _lost(address: str, place: Place) -> _Wrong | None:
    """What is wrong with an address on the site whose name nobody has; nothing where somebody has it."""
    internal = INTERNAL.match(address)
    if internal is None:
        return None
    kind, name, fragment = internal.groups()
    name = (fragment or "").removeprefix("#") if kind == "words" and not name else name
    known = place.places.get(kind)
    if known is None or name in known or (kind, name) == ("words", ""):
        return None
    meant = nearest_name(name, tuple(known))
    return f"the link {_short(address)}", _NAMED[kind], f"{kind}:{meant}" if meant else ""


def _meant(address: str) -> str:
    for start in ("http://", "//"):
        if address.startswith(start) and OUTSIDE.fullmatch(meant := f"https://{address.removeprefix(start)}"):
            return _short(meant)
    return ""


def _wrong_picture(address: str, token: Token, place: Place) -> _Wrong | None:
    known = tuple(place.pictures)
    if address not in place.pictures:
        expected = "a picture of the folder pictures/, such as pictures/name.png"
        return f"the picture {_short(address)}", expected, nearest_name(address, known)
    if not token.content.strip():
        return f"the picture {_short(address)} without words", f"what it shows, ![words]({address})", ""
    return None


def _short(address: str) -> str:
    return address if len(address) <= 60 else f"{address[:59]}…"


def _picture(renderer: RendererHTML, tokens: list[Token], index: int, options: object, env: dict[str, Place]) -> str:
    """A picture with its size, so that nothing moves when it comes; nothing where it can't be shown."""
    token = tokens[index]
    address = str(token.attrGet("src") or "")
    found = next((one for file, one in env["place"].pictures.items() if relative(env["place"].page, file) == address), None)
    if found is None:
        return ""
    token.attrSet("alt", renderer.renderInlineAsText(token.children or [], options, env))  # type: ignore[arg-type]
    for name, value in (("width", str(found.width)), ("height", str(found.height)), ("loading", "lazy")):
        token.attrSet(name, value)
    return renderer.renderToken(tokens, index, options, env)  # type: ignore[arg-type]
