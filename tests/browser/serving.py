"""A published folder shown to Chromium under its public address, and everything noted that a reader would not want."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Dialog, Page, Route

KINDS = {
    "home": "", "bracket": "watts/850/", "unit": "unit/ostrand-level-850-ii/", "bench record": "bench/ostrand-level-850-ii/", "not advised": "unit/kestrin-bolt-850/",
    "sizing": "how-many-watts/", "how we test": "how-we-test/", "words": "words/", "data": "data/", "list": "units/",
    "corrections": "corrections/", "changes": "changes/", "editions": "archive/", "frozen": "archive/2026-june/", "lost": "404.html",
}
"""A page of every kind, by what it is: address below the public one."""
SETTINGS: dict[str, dict[str, Any]] = {
    "light": {"color_scheme": "light"},
    "dark": {"color_scheme": "dark", "viewport": {"width": 412, "height": 915}},
    "narrow": {"viewport": {"width": 320, "height": 640}},
}
"""Readers: a wide window, a telephone of the usual width in the dark scheme, and one of 320 px."""
RULES: dict[str, dict[str, Any]] = {
    "dark": {"runOnly": ["cat.color", "wcag22aa"]},
    "narrow": {"rules": {"color-contrast": {"enabled": False}}},
}
"""The dark scheme differs from the light one in its colours; its width breaks lines elsewhere, so room for fingers counts too. The
narrow window has the colours of the wide one.
"""
_TYPES = {".html": "text/html; charset=utf-8", ".css": "text/css", ".js": "text/javascript", ".json": "application/json"}
_WATCH = """addEventListener("securitypolicyviolation", (event) => {
  report(`${event.violatedDirective} ${event.blockedURI} ${event.sourceFile}`);
});"""


@dataclass(slots=True)
class Noted:
    """What a browser told while pages were open."""

    reported: list[str] = field(default_factory=list)
    """Calls of ``window.report``, dialogs, and breaches of the content security policy."""
    messages: list[str] = field(default_factory=list)
    """Messages of the console, and errors of scripts."""
    asked: list[str] = field(default_factory=list)
    """Addresses asked for that are not a file of the folder."""


@dataclass(slots=True)
class Served:
    """A folder under its public address, in a browser of its own."""

    context: BrowserContext
    """The browser, as one reader has it."""
    root: str
    """Public address with a closing ``/``."""
    noted: Noted
    """What was told so far."""

    def open(self, address: str) -> Page:
        """The page at an address below the public one, when it has come whole."""
        page = self.context.new_page()
        page.goto(self.root + address, wait_until="load")
        return page


@contextmanager
def served(browser: Browser, folder: Path, root: str, **settings: Any) -> Iterator[Served]:
    """The folder under ``root``; nothing else can be reached."""
    context, noted = browser.new_context(**settings), Noted()

    def answer(route: Route) -> None:
        address = route.request.url.split("#")[0].split("?")[0]
        path = folder / (address.removeprefix(root) + ("index.html" if address.endswith("/") else ""))
        if not address.startswith(root) or not path.is_file():
            noted.asked.append(route.request.url)
            route.abort()
            return
        route.fulfill(body=path.read_bytes(), content_type=_TYPES.get(path.suffix, "application/octet-stream"))

    def told(dialog: Dialog) -> None:
        noted.reported.append(dialog.message)
        dialog.dismiss()

    context.route("**/*", answer)
    context.expose_function("report", lambda *words: noted.reported.append(" ".join(map(str, words))))
    context.add_init_script(_WATCH)
    context.on("console", lambda message: noted.messages.append(message.text))
    context.on("weberror", lambda error: noted.messages.append(str(error.error)))
    context.on("dialog", told)
    try:
        yield Served(context, root, noted)
    finally:
        context.close()
