"""Damage as it happens to files: bytes lost or thrown in, lines moved, values that are none, fields that go; and a watch on time."""

import gc
import signal
from collections.abc import Iterator
from contextlib import contextmanager
from copy import deepcopy
from datetime import date
from typing import Any

import yaml
from hypothesis import strategies as st

MOST_SECONDS = 2.0
"""Seconds of computing that an answer to a damaged file may take."""
STRANGE: tuple[Any, ...] = (
    0, -1, 1, 0.000_001, 1e-300, 1e300, 99_999_999_999, 10**24, 10**30, -0.0, True, False, None, "", " ", "a", "x" * 5000, [], {}, [[]],
    [0], {"a": 1}, date(1, 1, 1), date(9999, 12, 31), date(2026, 3, 2), "2026-03-02", "850 W", "12,5", "yes", "=1+1", "../../x", "NaN",
    "unit:none", "{{ guide.units }}", "{{ x.__class__ }}", "<script>", "[a](javascript:x)", "\u00a0", "e\u0301", "\u200b", "İ", "ß",
)
"""Values that have no business where they are put."""
SCRAPS = (
    b"\x00", b"\xff\xfe", b"\xef\xbb\xbf", b"\n", b"\r", b"\t", b"'", b'"', b"---\n", b"...\n", b": ", b"- ", b"[" * 50, b"{" * 50, b"*x",
    b"&x ", b"!!python/name:os.system ", b"<<: ", b"%YAML 9\n", b"9" * 5000, b"1e9999", b"\xe2\x80\xae", b"\xed\xa0\x80", b"| \n", b"? ",
    b"#", b",", b";", b"=cmd|' /C calc'!A0", b"{{ ", b"}}", b"![](", b"](//host)", b"<b>", b"`" * 40, b"> " * 60, b"*" * 200, b"[a](" * 60,
)
"""Scraps of other files and of what other programs would run."""


@contextmanager
def watched(most_s: float = MOST_SECONDS) -> Iterator[None]:
    """No more than so many seconds of computing, however busy the machine is; garbage of the tests is not looked for then."""
    def stop(_signal: int, _frame: object) -> None:
        raise AssertionError(f"more than {most_s} s of computing")

    before = signal.signal(signal.SIGVTALRM, stop)
    gc.disable()
    signal.setitimer(signal.ITIMER_VIRTUAL, most_s)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        gc.enable()
        signal.signal(signal.SIGVTALRM, before)


@st.composite
def torn(draw: st.DrawFn, whole: bytes) -> bytes:
    """Bytes of a file with some of them taken out, doubled, turned or thrown in, up to three times."""
    raw = whole
    for _ in range(draw(st.integers(1, 3))):
        spot = draw(st.integers(0, len(raw)))
        length = draw(st.integers(0, 40))
        put = draw(st.one_of(st.binary(max_size=6), st.sampled_from(SCRAPS), st.just(raw[spot : spot + length] * 2)))
        raw = raw[:spot] + put + raw[spot + draw(st.sampled_from((0, length, len(raw)))) :]
    return raw


@st.composite
def shuffled(draw: st.DrawFn, whole: bytes) -> bytes:
    """Lines of a file dropped, doubled, or changed places with another."""
    lines = whole.splitlines(keepends=True)
    for _ in range(draw(st.integers(1, 3))):
        first, second = draw(st.integers(0, len(lines) - 1)), draw(st.integers(0, len(lines) - 1))
        match draw(st.sampled_from(("drop", "double", "swap"))):
            case "drop" if len(lines) > 1:
                del lines[first]
            case "double":
                lines.insert(first, lines[second])
            case _:
                lines[first], lines[second] = lines[second], lines[first]
    return b"".join(lines)


def _places(value: Any) -> Iterator[tuple[Any, Any]]:
    """Every field and item of a record, as what holds it and its name or number."""
    steps = list(value) if isinstance(value, dict) else range(len(value)) if isinstance(value, list) else ()
    for step in steps:
        yield value, step
        yield from _places(value[step])


@st.composite
def misvalued(draw: st.DrawFn, whole: bytes) -> bytes:
    """A record in good YAML in which up to three fields are gone, doubled, renamed, or something else."""
    top = [deepcopy(yaml.safe_load(whole))]
    for _ in range(draw(st.integers(1, 3))):
        places = list(_places(top))
        holder, step = places[draw(st.integers(0, len(places) - 1))]
        match draw(st.sampled_from(("value", "value", "value", "scaled", "of another", "gone", "renamed", "again"))):
            case "gone" if holder is not top:
                del holder[step]
            case "scaled" if type(holder[step]) in {int, float}:
                holder[step] = round(holder[step] * draw(st.sampled_from((-1, 0, 0.001, 0.5, 2, 10, 1000))), 6)
            case "of another":
                other, at = places[draw(st.integers(0, len(places) - 1))]
                holder[step] = deepcopy(other[at])
            case "renamed" if isinstance(holder, dict):
                holder[f"{step}{draw(st.sampled_from(('x', '_v', '')))}"[1:]] = holder.pop(step)
            case "again" if isinstance(holder, list) and holder is not top:
                holder.insert(step, deepcopy(holder[step]))
            case _:
                holder[step] = deepcopy(draw(st.sampled_from(STRANGE)))
    return yaml.safe_dump(top[0], allow_unicode=True, sort_keys=False).encode()


@st.composite
def miscelled(draw: st.DrawFn, whole: bytes) -> bytes:
    """A table in which up to three cells are something else."""
    rows = [line.split(",") for line in whole.decode().splitlines()]
    for _ in range(draw(st.integers(1, 3))):
        row = rows[draw(st.integers(0, len(rows) - 1))]
        row[draw(st.integers(0, len(row) - 1))] = str(draw(st.sampled_from(STRANGE)))
    return "".join(f"{','.join(row)}\n" for row in rows).encode(errors="surrogatepass")


def damaged(file: str, whole: bytes) -> st.SearchStrategy[bytes]:
    """A damaged file of the content, by what kind of file it is."""
    ways = [torn(whole), shuffled(whole)]
    if file.endswith(".yaml"):
        ways += [misvalued(whole)] * 3
    if file.endswith(".csv"):
        ways += [miscelled(whole)] * 2
    return st.one_of(*ways)
