"""What the preview adds to pages, and the page that stands before them while something has to be put right."""

from html import escape

from guidegen.errors import Fault

REFRESH = """(() => {
  "use strict";
  const { watched, shown } = document.currentScript.dataset;
  const path = document.currentScript.src.replace(/[^/]*$/, watched);
  const look = async () => {
    try {
      const state = await (await fetch(path, { cache: "no-store" })).text();
      if (state !== shown) location.reload();
    } catch { /* the preview has ended, or begins again */ }
    setTimeout(look, 120);
  };
  look();
})();
"""
"""Asks eight times a second whether something else is shown, and then loads the page again."""


STYLE = """:root { color-scheme: light dark; --paper: #faf8f2; --ink: #1d2024; --quiet: #4c5054; --rule: #d8d4c8; --accent: #0b5a66; }
@media (prefers-color-scheme: dark) { :root { --paper: #15181b; --ink: #e8e5dc; --quiet: #b3b2aa; --rule: #383d41; --accent: #7cc6cf; } }
body {
  max-width: 62rem; margin: 0 auto; padding: 1.5rem 1.25rem 3rem; background: var(--paper); color: var(--ink);
  font: 1.0625rem/1.55 Charter, "Bitstream Charter", Cambria, Georgia, serif; overflow-wrap: anywhere;
}
h1 { margin: 0; padding-bottom: .6rem; border-bottom: 2px solid var(--ink); font-size: 2rem; font-weight: normal; line-height: 1.2; }
.note { color: var(--quiet); font: .9375rem/1.5 system-ui, "Segoe UI", Roboto, Arial, sans-serif; }
ol { margin: 1.5rem 0 0; padding: 0; list-style: none; }
li { padding: .9rem 0; border-top: 1px solid var(--rule); }
p { margin: .3rem 0; }
pre { margin: .5rem 0 0; padding-left: .8rem; border-left: 3px solid var(--accent); overflow-x: auto; font-size: .9rem; line-height: 1.4; }
pre:focus-visible { outline: 2px solid var(--accent); outline-offset: 3px; }
"""
"""The look of the pages that stand before all others; they do without the theme, since it may be what is at fault."""


def with_refresh(page: bytes, token: str, shown: int, *, watched: str = "state") -> bytes:
    """A page that refreshes itself when what is ``watched`` counts on from ``shown``, which was counted before the page was looked
    up: asked for by the page itself, a change between its loading and its first question would be lost. Its security policy lets
    scripts of its own host run.
    """
    script = f'<script src="/refresh/{token}/refresh.js" data-watched="{watched}" data-shown="{shown}" defer></script>\n</head>'
    return page.replace(b"</head>", script.encode(), 1)


def fault_page(faults: tuple[Fault, ...], token: str, other: str = "") -> bytes:
    """What has to be put right, in place of every page; the last good ones wait behind it."""
    count = len(faults) or 1
    items = "".join(f"<li>\n<p>{escape(fault.message)}</p>\n{_line(fault)}</li>\n" for fault in faults) or f"<li><pre>{escape(other)}</pre></li>\n"
    title = f"{count} {'fault' if count == 1 else 'faults'}"
    return _before(title, f"""<p class="note">The last good pages wait behind this one, which goes by itself when everything is put right.</p>
<ol>
{items}</ol>""", token)


def waiting_page(token: str) -> bytes:
    """What stands before the first round is done."""
    return _before("The first pages are being made", '<p class="note">They take the place of this page by themselves.</p>', token)


def ended_page(token: str) -> bytes:
    """What stands when no round will follow, because the program itself failed."""
    return _before("The preview has stopped", '<p class="note">The program failed; the terminal says how. End the preview and begin it again.</p>', token)


def _before(title: str, body: str, token: str) -> bytes:
    """A page that stands before all others."""
    return f"""<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'self'; connect-src 'self'; style-src 'self'; img-src data:">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>{title}</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="/refresh/{token}/before.css">
</head>
<body>
<main>
<h1>{title}</h1>
{body}
</main>
</body>
</html>
""".encode()


def _line(fault: Fault) -> str:
    """The line that the fault stands on, with a mark under the column."""
    if not fault.text:
        return ""
    mark = f"\n{' ' * (fault.column - 1)}^" if 0 < fault.column <= len(fault.text) + 1 else ""
    return f'<pre tabindex="0">{escape(fault.text)}{mark}</pre>\n'
