"""What the preview adds to pages, and the page that stands before them while something has to be put right."""

from html import escape

from guidegen.errors import Fault

REFRESH = """(() => {
  "use strict";
  const path = document.currentScript.src.replace(/[^/]*$/, "state");
  let first;
  const look = async () => {
    try {
      const state = await (await fetch(path, { cache: "no-store" })).text();
      first ??= state;
      if (state !== first) location.reload();
    } catch { /* the preview has ended, or begins again */ }
    setTimeout(look, 120);
  };
  look();
})();
"""
"""Asks eight times a second whether something else is shown, and then loads the page again."""


def with_refresh(page: bytes, token: str) -> bytes:
    """A page that refreshes itself; its security policy lets scripts of its own host run."""
    return page.replace(b"</head>", f'<script src="/refresh/{token}/refresh.js" defer></script>\n</head>'.encode(), 1)


def fault_page(faults: tuple[Fault, ...], other: str = "") -> bytes:
    """What has to be put right, in place of every page; the last good ones wait behind it."""
    count = len(faults) or 1
    items = "".join(f"<li><p>{escape(fault.message)}</p>{_line(fault)}</li>\n" for fault in faults) or f"<li><pre>{escape(other)}</pre></li>"
    title = f"{count} {'fault' if count == 1 else 'faults'}"
    return f"""<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'self'; connect-src 'self'; style-src 'self'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>{title}</title>
</head>
<body>
<main>
<h1>{title}</h1>
<p>The last good pages wait behind this one. It goes by itself when everything is put right.</p>
<ol>
{items}</ol>
</main>
</body>
</html>
""".encode()


def _line(fault: Fault) -> str:
    """The line that the fault stands on, with a mark under the column."""
    if not fault.text:
        return ""
    mark = f"\n{' ' * (fault.column - 1)}^" if 0 < fault.column <= len(fault.text) + 1 else ""
    return f"<pre>{escape(fault.text)}{mark}</pre>"
