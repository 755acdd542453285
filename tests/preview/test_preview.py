"""The preview as a process, with a browser and with clients that never finish."""

import http.client
import os
import re
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import ExitStack, closing
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser

from tests.conftest import ROOT

SMALL = ROOT / "tests" / "small_edition" / "content"
CLIENTS = 200
HELD_S = 30.0 if os.environ.get("GUIDEGEN_LONG") else 2.0
"""How long slow clients keep their connections open."""


@dataclass(frozen=True, slots=True)
class Running:
    """A preview."""

    content: Path
    port: int

    @property
    def address(self) -> str:
        """Where it answers."""
        return f"http://127.0.0.1:{self.port}/"


def get(port: int, path: str = "/", **headers: str) -> tuple[int, str]:
    """Status and text of an answer."""
    with closing(http.client.HTTPConnection("127.0.0.1", port, timeout=20)) as connection:
        connection.request("GET", path, headers=headers)
        with connection.getresponse() as answer:
            return answer.status, answer.read().decode(errors="replace")


def wait_until_shown(port: int) -> None:
    """Wait for the first good round."""
    for _ in range(400):
        if get(port)[0] == 200:
            return
        time.sleep(0.1)
    pytest.fail("the preview showed nothing in forty seconds")


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    """A preview of a copy of the small edition, on a free port."""
    content = tmp_path_factory.mktemp("preview") / "content"
    for path in sorted(SMALL.rglob("*")):
        if path.is_file():
            (content / path.relative_to(SMALL)).parent.mkdir(parents=True, exist_ok=True)
            (content / path.relative_to(SMALL)).write_bytes(path.read_bytes())
    command = [sys.executable, "-m", "guidegen", "preview", "--content", str(content), "--port", "0"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env={**os.environ, "PYTHONUNBUFFERED": "1"}) as process:
        assert process.stdout is not None
        found = re.search(r"127\.0\.0\.1:([0-9]+)/ shows", process.stdout.readline())
        assert found is not None
        wait_until_shown(int(found[1]))
        yield Running(content, int(found[1]))
        process.send_signal(signal.SIGINT)
        process.wait(timeout=30)


def test_a_saved_record_is_shown_and_a_fault_stands_before_the_pages(running: Running, browser: Browser) -> None:
    """Save, see; break, read; mend, see again: without a key pressed in the browser."""
    record = next(running.content.glob("units/ostrevant-cairn-550/2*.yaml"))
    sound = record.read_text(encoding="utf-8")
    page = browser.new_page()
    page.goto(f"{running.address}watts/550/")
    page.wait_for_timeout(600)
    guide = running.content / "guide.yaml"
    guide.write_text(guide.read_text(encoding="utf-8").replace("For a computer with a mid-range", "For a machine with a mid-range"), encoding="utf-8")
    page.get_by_text("For a machine with a mid-range").first.wait_for(timeout=20_000)
    record.write_text(sound.replace("ambient_c: ", "ambient_c: 2,", 1), encoding="utf-8")
    page.get_by_role("heading", name="1 fault").wait_for(timeout=20_000)
    said = page.inner_text("main")
    record.write_text(sound, encoding="utf-8")
    page.get_by_text("For a machine with a mid-range").first.wait_for(timeout=20_000)
    page.close()

    assert "units/ostrevant-cairn-550/2026-02-17.yaml:" in said
    assert "expected a number" in said


def test_the_desk_is_shown_and_never_published(running: Running, site: Path) -> None:
    """It stands at an address of the preview, and no file of the site is it."""
    status, text = get(running.port, "/desk/")

    assert (200, True) == (status, "Calibrations that end" in text)
    assert not (site / "desk").exists()
    assert not any("Calibrations that end" in path.read_text(encoding="utf-8") for path in site.rglob("*.html"))


def test_a_second_preview_on_the_port_is_a_sentence(running: Running) -> None:
    """And exit code 1."""
    command = [sys.executable, "-m", "guidegen", "preview", "--content", str(running.content), "--port", str(running.port)]
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=60)

    assert 1 == done.returncode
    assert done.stderr.startswith(f"port {running.port}: came ")
    assert "another preview may run there" in done.stderr


def test_slow_clients_keep_nobody_waiting(running: Running) -> None:
    """Two hundred connections that never finish their request, and a page is still answered."""
    with ExitStack() as stack:
        for _ in range(CLIENTS):
            client = stack.enter_context(socket.create_connection(("127.0.0.1", running.port), timeout=20))
            client.sendall(b"GET / HTTP/1.1\r\nHost: ")
        until = time.monotonic() + HELD_S
        answers = [get(running.port)[0]]
        while time.monotonic() < until:
            time.sleep(0.5)
            answers.append(get(running.port)[0])

    assert {200} == set(answers)


def test_a_head_that_is_too_large_is_refused(running: Running) -> None:
    """More than 16 kB of headers are answered by the server itself."""
    assert get(running.port, "/", **{"X-Long": "a" * 40_000})[0] in (400, 431)


FORMS = (
    "/../guide.yaml", "/../../content/guide.yaml", "/%2e%2e/guide.yaml", "/%2e%2e/%2e%2e/content/guide.yaml", "/..%2fguide.yaml", "/%2e%2e%2fguide.yaml",
    "/.%2e/guide.yaml", "/%2e./guide.yaml", "/%2E%2E/guide.yaml", "/%252e%252e/guide.yaml", "/%25252e%25252e/guide.yaml", "/..%252fguide.yaml",
    "/..%5cguide.yaml", "/%5c..%5cguide.yaml", "/..\\guide.yaml", "/%c0%ae%c0%ae/guide.yaml", "/%c0%af../guide.yaml", "/%e0%80%ae%e0%80%ae/guide.yaml",
    "/%uff0e%uff0e/guide.yaml", "/%ff", "/..;/guide.yaml", "/..%00/guide.yaml", "/index.html%00", "/index.html%00.png", "/%00", "//etc/passwd",
    "///etc/passwd", "/%2fetc%2fpasswd", "/%2f%2fetc/passwd", "/etc/passwd", "/./../guide.yaml", "/units/../../guide.yaml", "/units/%2e%2e/%2e%2e/guide.yaml",
    "/units/..%2f..%2fguide.yaml", "/.guidegen-manifest.json", "/%2eguidegen-manifest.json", "/assets/", "/assets", "/data/..", "/....//guide.yaml",
    "/.../guide.yaml", "/~root/", "/C:%5cguide.yaml", "/file:%2f%2f%2fetc%2fpasswd", "/index.html/", "/index.html/..%2f", "/units/.", "/units/./index.html",
    "/units//index.html", "/%0d%0aX-Split:%20yes", "http://127.0.0.1/", "http://guide.example/", "file:///etc/passwd", "*", "index.html", "../guide.yaml",
)
"""Targets of a request as they go over the wire, none of which names a file that is shown."""


def raw(port: int, head: str) -> bytes:
    """The answer to a request written by hand."""
    with socket.create_connection(("127.0.0.1", port), timeout=20) as client:
        client.sendall(head.encode("latin-1"))
        client.shutdown(socket.SHUT_WR)
        return b"".join(iter(lambda: client.recv(65536), b""))


def test_no_target_leads_out_over_the_wire(running: Running) -> None:
    """At least forty forms are answered as bad or not found, and none with a file."""
    answers = {form: raw(running.port, f"GET {form} HTTP/1.1\r\nHost: 127.0.0.1:{running.port}\r\nConnection: close\r\n\r\n") for form in FORMS}

    assert 40 <= len(answers) == len(FORMS)
    assert {} == {form: answer[:60] for form, answer in answers.items() if answer.split(b" ")[1] not in (b"400", b"404")}
    assert not any(b"root:" in answer or b"public_address" in answer or b"\r\nX-Split" in answer for answer in answers.values())


@pytest.mark.parametrize("hosts", [(), ("127.0.0.1:{port}", "guide.example"), ("guide.example", "127.0.0.1:{port}"), ("127.0.0.1:{port}",) * 2])
def test_one_host_and_no_other(running: Running, hosts: tuple[str, ...]) -> None:
    """None, two, or two alike are refused; RFC 9112, 3.2 asks for exactly one."""
    lines = "".join(f"Host: {host.format(port=running.port)}\r\n" for host in hosts)
    answer = raw(running.port, f"GET / HTTP/1.1\r\n{lines}Connection: close\r\n\r\n")

    assert answer.split(b" ")[1] in (b"400", b"421")


SETTINGS: dict[str, dict[str, Any]] = {
    "light": {"color_scheme": "light"}, "dark": {"color_scheme": "dark"}, "narrow": {"viewport": {"width": 320, "height": 640}},
}
"""Editors: either scheme, and a telephone of 320 px."""


@pytest.mark.parametrize("setting", SETTINGS)
def test_axe_finds_nothing_on_desk_and_faults(running: Running, browser: Browser, setting: str) -> None:
    """The pages that the preview alone shows, by what a program can find of WCAG 2.2; nothing is wider than the window."""
    guide = running.content / "guide.yaml"
    sound, found = guide.read_text(encoding="utf-8"), []
    with closing(browser.new_page(**SETTINGS[setting])) as page:
        page.goto(f"{running.address}desk/")
        page.get_by_role("heading", name="Units worth testing next").wait_for(timeout=20_000)
        found.append((Axe().run(page).response["violations"], page.evaluate("document.documentElement.scrollWidth <= innerWidth")))
        guide.write_text(sound.replace("format: 1", "format: one", 1), encoding="utf-8")
        page.get_by_role("heading", name="1 fault").wait_for(timeout=20_000)
        found.append((Axe().run(page).response["violations"], page.evaluate("document.documentElement.scrollWidth <= innerWidth")))
        guide.write_text(sound, encoding="utf-8")
        page.get_by_role("heading", name="Units worth testing next").wait_for(timeout=20_000)

    assert [([], True), ([], True)] == found


def test_a_folder_that_is_not_there_is_a_sentence(tmp_path: Path) -> None:
    """And exit code 1, before anything is served."""
    command = [sys.executable, "-m", "guidegen", "preview", "--content", str(tmp_path / "none")]
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=60)

    assert (1, f"{tmp_path / 'none'}: came no folder, expected one with the records of the guide\n") == (done.returncode, done.stderr)


def test_only_this_machine_is_answered(running: Running) -> None:
    """The listener stands on the loopback interface alone, and another host's name finds nothing."""
    assert 421 == get(running.port, "/", Host="guide.example")[0]
    listening = [line.split()[1] for line in Path("/proc/net/tcp").read_text(encoding="ascii").splitlines()[1:] if line.split()[3] == "0A"]
    here = [place for place in listening if int(place.split(":")[1], 16) == running.port]
    assert {"0100007F"} == {place.split(":")[0] for place in here}
