"""What may be asked of the preview, by every form in which somebody may ask for more."""

from collections.abc import Callable
from pathlib import Path

import pytest

from guidegen.errors import Fault
from guidegen.origins import Origin
from guidegen.preview import Application, Rounds, ended_page, fault_page, waiting_page

HOST = "127.0.0.1:8300"
Ask = Callable[..., tuple[int, dict[str, str], bytes]]
CLIMBING = (
    "/..", "/../", "/../secret.txt", "/../../secret.txt", "/a/../../secret.txt", "/a/../index.html", "/./index.html", "/a/./page.html",
    "//secret.txt", "///etc/passwd", "/a//page.html", "/..//secret.txt", "/.../secret.txt", "/....//secret.txt", "/.hidden",
    "/a/.hidden", "/.git/config", "/.guidegen-manifest.json", "\\..\\secret.txt", "/..\\secret.txt", "/a\\..\\..\\secret.txt",
    "/a/..\\page.html", "/\\\\host\\share", "/secret.txt\0", "/\0", "/a/page.html\0.png", "/index.html\0", "/%2e%2e/secret.txt",
    "/%2e%2e%2fsecret.txt", "/..%2fsecret.txt", "/..%5csecret.txt", "/%252e%252e/secret.txt", "/..;/secret.txt", "/..%00/secret.txt",
    "/~/secret.txt", "/C:/secret.txt", "/C:\\secret.txt", "/file:///etc/passwd", "/http://127.0.0.1:8300/index.html", "secret.txt",
    "../secret.txt", "/a/../../../../../../etc/passwd", "/out/secret.txt", "/linked.txt", "/a", "/a/page.html/", "/ ", "/*", "/index.html/..",
)
"""Paths, already decoded once as a server hands them over, that name no file which the preview shows."""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A site of two pages beside a file and links that lead to it."""
    (tmp_path / "secret.txt").write_text("secret")
    site = tmp_path / "site"
    (site / "a").mkdir(parents=True)
    for name in ("index.html", "a/page.html", "a/.hidden", ".guidegen-manifest.json"):
        (site / name).write_text("<html><head></head><body>page</body></html>")
    (site / "data.csv").write_text("a\n")
    (site / "out").symlink_to(tmp_path, target_is_directory=True)
    (site / "linked.txt").symlink_to(tmp_path / "secret.txt")
    return site


@pytest.fixture
def rounds(folder: Path) -> Rounds:
    """What a preview of the site shows after a good round."""
    found = Rounds(folder)
    found.good()
    found.laid("<html><head></head><body>desk</body></html>")
    return found


@pytest.fixture
def ask(rounds: Rounds) -> Ask:
    """Asks the application as the server would."""
    application = Application(rounds, 8300)

    def asked(path: str = "/", method: str = "GET", **headers: str | None) -> tuple[int, dict[str, str], bytes]:
        told: list[tuple[str, list[tuple[str, str]]]] = []
        environ: dict[str, object] = {"REQUEST_METHOD": method, "PATH_INFO": path.encode().decode("latin-1"), "HTTP_HOST": HOST}
        environ |= {f"HTTP_{name.upper()}": value for name, value in headers.items() if value is not None}
        environ = {name: value for name, value in environ.items() if headers.get("host", HOST) is not None or name != "HTTP_HOST"}
        body = b"".join(application(environ, lambda status, head: told.append((status, head))))
        return int(told[0][0].split()[0]), dict(told[0][1]), body

    return asked


@pytest.mark.parametrize("path", CLIMBING, ids=ascii)
def test_no_path_leads_out_of_what_is_shown(ask: Ask, path: str) -> None:
    """Paths that climb, hide, hold a zero or a backslash, or lead out by a link find nothing."""
    status, _, body = ask(path)

    assert (404, False) == (status, b"secret" in body)


def test_there_are_enough_forms() -> None:
    """At least forty, each once."""
    assert 40 <= len(CLIMBING) == len(set(CLIMBING))


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1", "127.0.0.1:8301", "localhost", "0.0.0.0:8300", "127.0.0.1:8300, evil.example",
                                  "127.0.0.1:8300.evil.example", "LOCALHOST:8300", "", None])
def test_another_host_is_misdirected(ask: Ask, host: str | None) -> None:
    """A name that leads to this machine from elsewhere is no reason to answer, nor are two names."""
    assert 421 == ask(host=host)[0]


@pytest.mark.parametrize("origin", ["http://evil.example", "https://127.0.0.1:8300", "null", "http://127.0.0.1:8301", HOST, "", f"http://{HOST}/"])
def test_another_origin_is_misdirected(ask: Ask, rounds: Rounds, origin: str) -> None:
    """Also on the way by which pages learn that they are out of date."""
    assert (421, 421) == (ask(origin=origin)[0], ask(f"/refresh/{rounds.token}/state", origin=origin)[0])


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "OPTIONS", "PATCH", "TRACE", "CONNECT", "get"])
def test_pages_are_read_and_nothing_else(ask: Ask, method: str) -> None:
    """Any other method is named as not allowed."""
    status, head, _ = ask(method=method)

    assert (405, "GET, HEAD") == (status, head["Allow"])


def test_a_page_refreshes_itself_and_bears_guards(ask: Ask, rounds: Rounds) -> None:
    """The script comes from the preview and knows its token; a file that is no page is handed over as it is."""
    status, head, body = ask("/a/page.html")

    assert (200, "nosniff", "same-origin") == (status, head["X-Content-Type-Options"], head["Cross-Origin-Resource-Policy"])
    assert f"/refresh/{rounds.token}/refresh.js".encode() in body
    assert b"a\n" == ask("/data.csv")[2]
    assert (200, b"") == ask("/a/page.html", method="HEAD")[::2]


def test_only_the_token_tells_the_state(ask: Ask, rounds: Rounds) -> None:
    """A wrong one finds nothing."""
    assert (200, b"1") == ask(f"/refresh/{rounds.token}/state")[::2]
    assert (200, b"1") == ask(f"/refresh/{rounds.token}/desks")[::2]
    assert [404] * 4 == [ask(path)[0] for path in ("/refresh/x/state", "/refresh//state", f"/refresh/{rounds.token}/x", "/refresh/")]


def test_a_page_knows_what_was_shown_when_it_was_looked_up(ask: Ask, rounds: Rounds) -> None:
    """A change between its loading and its first question is noticed: the script compares with what stands in the page."""
    before, state = ask("/a/page.html")[2], rounds.state
    rounds.bad(fault_page((), rounds.token, "broken"))
    after, asked = ask("/a/page.html")[2], ask(f"/refresh/{rounds.token}/state")[2].decode()

    assert f'data-shown="{state}"'.encode() in before
    assert f'data-shown="{asked}"'.encode() in after
    assert asked != f"{state}"


def test_the_desk_follows_the_pages(ask: Ask, rounds: Rounds) -> None:
    """A page counts the pages and the desk counts the desks: the pages don't load again when the desk comes."""
    before = rounds.state, rounds.desks
    rounds.good()
    between = rounds.state, rounds.desks
    rounds.laid("<html><head></head><body>new desk</body></html>")
    page, desk = ask("/a/page.html")[2], ask("/desk/")[2]

    assert (before[0] + 1, before[1]) == between
    assert (between[0], between[1] + 1) == (rounds.state, rounds.desks)
    assert (True, True) == (b'data-watched="state"' in page, b'data-watched="desks"' in desk)
    assert b"new desk" in desk


def test_faults_stand_before_every_page_until_the_next_good_round(ask: Ask, rounds: Rounds) -> None:
    """Words of the content are words there, and what is no page is still handed over."""
    rounds.bad(fault_page((), rounds.token, "<script>alert(1)</script>"))
    during = ask("/a/page.html")
    state = rounds.state
    rounds.good()

    assert (503, True, False) == (during[0], b"&lt;script&gt;" in during[2], b"<script>alert" in during[2])
    assert (200, state + 1) == (ask("/a/page.html")[0], rounds.state)


def test_a_fault_is_told_with_its_line_and_a_mark_under_its_column(ask: Ask, rounds: Rounds) -> None:
    """File, line, field, what came and what was expected, then the line as it stands, escaped."""
    fault = Fault(origin=Origin("guide.yaml", ("title",)), line=3, column=8, came="<b>", expected="a text", text="title: <b>")
    rounds.bad(fault_page((fault,), rounds.token))
    _, _, body = ask()

    assert "<h1>1 fault</h1>" in body.decode()
    assert "<p>guide.yaml:3, title: came &lt;b&gt;, expected a text</p>" in body.decode()
    assert "title: &lt;b&gt;\n       ^</pre>" in body.decode()


@pytest.mark.parametrize(("page", "says"), [(waiting_page, "The first pages are being made"), (ended_page, "The preview has stopped")])
def test_what_stands_before_the_pages_has_a_look_of_its_own(ask: Ask, rounds: Rounds, page: Callable[[str], bytes], says: str) -> None:
    """No page of faults claims a fault where there is none, and its style comes from the preview."""
    rounds.bad(page(rounds.token))
    status, _, body = ask("/any/")

    assert (503, True, False) == (status, f"<h1>{says}</h1>" in body.decode(), "1 fault" in body.decode())
    assert f"/refresh/{rounds.token}/before.css" in body.decode()
    assert "text/css; charset=utf-8" == ask(f"/refresh/{rounds.token}/before.css")[1]["Content-Type"]


def test_two_previews_have_two_tokens(folder: Path) -> None:
    """A token is drawn for each, long enough that nobody guesses it."""
    one, other = Rounds(folder), Rounds(folder)

    assert one.token != other.token
    assert len(one.token) >= 20
