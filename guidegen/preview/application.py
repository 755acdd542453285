"""What may be asked of the preview, and what is answered: a WSGI application (PEP 3333)."""

import secrets
from collections.abc import Callable, Iterable
from http import HTTPStatus
from pathlib import Path

from guidegen.preview.pages import REFRESH, STYLE, with_refresh
from guidegen.preview.rounds import Rounds

Environ = dict[str, object]
Start = Callable[[str, list[tuple[str, str]]], object]
TYPES = {
    ".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8",
    ".json": "application/json", ".csv": "text/csv; charset=utf-8", ".svg": "image/svg+xml", ".png": "image/png",
    ".jpg": "image/jpeg", ".jpeg": "image/jpeg", ".webp": "image/webp", ".xml": "application/xml",
    ".atom": "application/atom+xml", ".txt": "text/plain; charset=utf-8", ".yaml": "text/plain; charset=utf-8",
}
"""Media types by ending; anything else is not shown, only handed over."""
GUARDS = [
    ("X-Content-Type-Options", "nosniff"), ("Cross-Origin-Resource-Policy", "same-origin"), ("Cache-Control", "no-store"),
    ("Referrer-Policy", "no-referrer"), ("X-Frame-Options", "DENY"),
]
"""Headers of every answer."""


class Application:
    """Shows a folder and the editor's desk to this machine alone."""

    def __init__(self, rounds: Rounds, port: int) -> None:
        """The application for what ``rounds`` shows, on a port of the loopback interface."""
        self._rounds = rounds
        self._hosts = {f"127.0.0.1:{port}", f"localhost:{port}"}
        self._origins = {None, *(f"http://{host}" for host in self._hosts)}

    def __call__(self, environ: Environ, start: Start) -> Iterable[bytes]:
        """The answer to a request."""
        status, kind, body = self._answer(environ)
        head = [("Content-Type", kind), ("Content-Length", str(len(body))), *GUARDS]
        if status is HTTPStatus.METHOD_NOT_ALLOWED:
            head.append(("Allow", "GET, HEAD"))
        start(f"{status.value} {status.phrase}", head)
        return [] if environ["REQUEST_METHOD"] == "HEAD" else [body]

    def _answer(self, environ: Environ) -> tuple[HTTPStatus, str, bytes]:
        if environ.get("HTTP_HOST") not in self._hosts or environ.get("HTTP_ORIGIN") not in self._origins:
            return _plain(HTTPStatus.MISDIRECTED_REQUEST)
        if environ["REQUEST_METHOD"] not in ("GET", "HEAD"):
            return _plain(HTTPStatus.METHOD_NOT_ALLOWED)
        if not str(environ.get("REQUEST_URI", "/")).startswith("/"):
            return _plain(HTTPStatus.BAD_REQUEST)
        try:
            path = str(environ.get("PATH_INFO", "")).encode("latin-1").decode()
        except UnicodeError:
            return _plain(HTTPStatus.BAD_REQUEST)
        if path.startswith("/refresh/"):
            return self._refresh(path.removeprefix("/refresh/"))
        return self._page(path)

    def _refresh(self, path: str) -> tuple[HTTPStatus, str, bytes]:
        token, _, name = path.partition("/")
        if not secrets.compare_digest(token.encode(), self._rounds.token.encode()):
            return _plain(HTTPStatus.NOT_FOUND)
        if name == "refresh.js":
            return HTTPStatus.OK, TYPES[".js"], REFRESH.encode()
        if name == "before.css":
            return HTTPStatus.OK, TYPES[".css"], STYLE.encode()
        if name in ("state", "desks"):
            return HTTPStatus.OK, TYPES[".txt"], str(getattr(self._rounds, name)).encode()
        return _plain(HTTPStatus.NOT_FOUND)

    def _page(self, path: str) -> tuple[HTTPStatus, str, bytes]:
        """A file of the folder, the desk, or what has to be put right."""
        name = path.removeprefix("/")
        name = f"{name}index.html" if name == "" or name.endswith("/") else name
        html = name.endswith(".html")
        state, desks = self._rounds.state, self._rounds.desks
        if html and self._rounds.faults:
            return HTTPStatus.SERVICE_UNAVAILABLE, TYPES[".html"], with_refresh(self._rounds.faults, self._rounds.token, state)
        if name == "desk/index.html" and self._rounds.desk:
            return HTTPStatus.OK, TYPES[".html"], with_refresh(self._rounds.desk, self._rounds.token, desks, watched="desks")
        found = file_in(self._rounds.folder, name)
        if found is None or not path.startswith("/"):
            return _plain(HTTPStatus.NOT_FOUND)
        try:
            body = found.read_bytes()
        except OSError:
            return _plain(HTTPStatus.NOT_FOUND)
        kind = TYPES.get(found.suffix, "application/octet-stream")
        return HTTPStatus.OK, kind, with_refresh(body, self._rounds.token, state) if html else body


def file_in(folder: Path, name: str) -> Path | None:
    """The file of this name below a folder; nothing where the name climbs, hides, or leads out by a link."""
    parts = name.split("/")
    if "\0" in name or "\\" in name or any(part in ("", ".", "..") or part.startswith(".") for part in parts):
        return None
    try:
        place = folder.joinpath(*parts).resolve(strict=True)
    except (OSError, RuntimeError, ValueError):
        return None
    return place if place.is_relative_to(folder.resolve()) and place.is_file() else None


def _plain(status: HTTPStatus) -> tuple[HTTPStatus, str, bytes]:
    return status, TYPES[".txt"], f"{status.phrase}\n".encode()
