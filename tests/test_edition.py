"""The whole demo, published and read back."""

import csv
import json
import os
import subprocess
import sys
from pathlib import Path
from urllib.parse import urldefrag

import pytest
from bs4 import BeautifulSoup, Tag

from guidegen.records import Library
from guidegen.sources import read_library

ROOT = Path(__file__).parent.parent
Pages = dict[str, BeautifulSoup]


@pytest.fixture(scope="module")
def library() -> Library:
    """The demo's records."""
    return read_library(ROOT / "content")


def bracket_pages(pages: Pages) -> Pages:
    """The pages of the wattage brackets."""
    return {path: page for path, page in pages.items() if path.startswith("watts/")}


def units_of(page: BeautifulSoup) -> list[str]:
    """Identifiers of the units that a bracket's table lists."""
    table = page.find("table")
    assert isinstance(table, Tag)
    links = [str(a["href"]) for a in table.find_all("a", href=True) if "/unit/" in str(a["href"])]
    return [link.split("/unit/")[1].split("/")[0] for link in links]


def test_every_unit_stands_on_exactly_one_bracket_page(pages: Pages, library: Library) -> None:
    """And every bracket page lists each of its units once."""
    listed = [unit for page in bracket_pages(pages).values() for unit in units_of(page)]

    assert sorted(unit.id for unit in library.units) == sorted(listed)


def test_noise_that_may_be_less_is_marked_in_the_ranking(pages: Pages) -> None:
    """The Quill is as quiet as the room, the Bolt is not: one figure is marked in the table and named so in the choice."""
    page = pages["watts/850/index.html"]
    text = {unit: str(next(row for row in page.select("#ranking tbody tr") if unit in row.get_text())) for unit in ("Quill", "Bolt")}

    assert "≤\N{NO-BREAK SPACE}15.8" in text["Quill"]
    assert "≤" not in text["Bolt"]
    assert "at most 15.8" in page.get_text(" ").replace("\N{NO-BREAK SPACE}", " ")


def test_the_list_of_units_says_the_day_of_prices_once(pages: Pages) -> None:
    """Above the table; in a row stands the price alone, or since when there is none, and each has a number to sort by."""
    page = pages["units/index.html"]
    lead, rows = page.select_one(".lead"), page.select("#units tbody tr")
    prices = [row.find_all("td")[-1] for row in rows]

    assert lead is not None
    assert "Ireland, seen on 16 November 2026" in lead.get_text().replace("\N{NO-BREAK SPACE}", " ")
    assert [] == [cell.get_text() for cell in prices if "Ireland" in cell.get_text() or ("16" in cell.get_text() and "2026" in cell.get_text())]
    assert all(cell.has_attr("data-v") == cell.get_text().startswith("€") for cell in prices)
    assert all(row.find_all("td")[1].get_text().split(" ")[0] == row.find_all("td")[1]["data-v"] for row in rows)


def test_each_document_of_the_limits_stands_once(pages: Pages) -> None:
    """Rows name it by its number in the list beneath the table; the four-line names are not said row by row."""
    page = pages["unit/halmer-quill-850/index.html"]
    marks = [int(cell.get_text()) for cell in page.select("td.source")]

    assert len(page.select(".sources li")) == max(marks) == len(set(marks)) < len(marks)


def test_the_legend_of_the_strip_says_what_its_ends_are(pages: Pages, library: Library) -> None:
    """In numbers: noise from the policy's floor to its limit, ripple by the design guide; and what the thin lines are."""
    noise = library.policy.noise
    for path in ("watts/850/index.html", "unit/halmer-quill-850/index.html"):
        told = " ".join(" ".join(one.get_text() for one in pages[path].select(".legend figcaption")).split())

        assert f"0 % is {noise.floor_dba:.0f} dB(A) and 100 % {noise.limit_dba:.0f} dB(A)" in told
        assert "100 % is 120 mV on 12 V and 50 mV on 5 V and 3.3 V" in told
        assert "the thin line" in told


def test_no_place_is_said_in_words_not_set_as_a_figure(pages: Pages) -> None:
    """A number is set large; that there is none is not."""
    classes = [pages[f"unit/{unit}/index.html"].select_one(".scored p.figure") for unit in ("kestrin-bolt-850", "halmer-quill-850")]

    assert [["figure", "words"], ["figure"]] == [one["class"] for one in classes if one]


def test_every_unit_and_bracket_has_a_page(pages: Pages, library: Library) -> None:
    """One page a unit, one a bracket, and the pages of prose."""
    wanted = {f"unit/{u.id}/index.html" for u in library.units} | {f"watts/{b.id}/index.html" for b in library.guide.brackets}

    assert wanted | {"index.html", "404.html", "units/index.html", "how-we-test/index.html", "words/index.html"} <= set(pages)


def test_every_link_and_anchor_leads_somewhere(site: Path, pages: Pages) -> None:
    """Links inside the site resolve to a file, and anchors to an id on it."""
    ids = {path: {str(t["id"]) for t in page.find_all(id=True)} for path, page in pages.items()}
    dead = []
    for path, page in pages.items():
        for link in page.find_all(["a", "link", "script"]):
            address = str(link.get("href") or link.get("src") or "")
            if path == "404.html" or not address or address.startswith(("https://", "mailto:", "data:")):
                continue
            target, fragment = urldefrag(address)
            file = (site / path).parent / target if target else site / path
            there = file.resolve().relative_to(site.resolve()).as_posix()
            if not file.is_file() or (fragment and fragment not in ids.get(there, set())):
                dead.append((path, address))

    assert [] == dead


def test_numbers_on_the_page_are_those_of_the_csv_and_the_json(site: Path, pages: Pages) -> None:
    """Efficiency, noise, ripple and score: one rounding for all forms."""
    text = (site / "data/units.csv").read_text(encoding="utf-8")
    rows = {row["unit"]: row for row in csv.DictReader(text.splitlines())}
    document = {row["unit"]: row for row in json.loads((site / "data/units.json").read_text(encoding="utf-8"))["units"]}
    columns = ("efficiency_at_50_pct", "acoustic_noise_at_50_dba", "ripple_12v_worst_mv")
    for page in bracket_pages(pages).values():
        table = page.find("table")
        assert isinstance(table, Tag)
        for unit, row in zip(units_of(page), table.select("tbody tr"), strict=True):
            shown = [str(cell["data-v"]) for cell in row.select("[data-v]")]
            for column in columns:
                assert float(rows[unit][column]) == document[unit][column]
                assert document[unit][column] in [float(v) for v in shown if v]


def test_what_is_not_advised_says_so_on_its_page_and_its_bracket(pages: Pages) -> None:
    """The unit with too much ripple, with the number and the limit."""
    unit = pages["unit/kestrin-bolt-850/index.html"].get_text(" ", strip=True)
    bracket = pages["watts/850/index.html"].get_text(" ", strip=True)

    assert "Not advised" in unit
    assert "at most 120\N{NO-BREAK SPACE}mV" in unit
    assert "not advised" in bracket


def test_the_badge_that_the_bench_does_not_confirm_is_told(pages: Pages) -> None:
    """Claimed gold, supported silver."""
    text = pages["unit/orrin-vale-ledger-550/index.html"].get_text(" ", strip=True)

    assert "The Gold badge does not hold" in text
    assert "the bench supports Silver" in text


def test_a_report_says_which_of_our_choices_its_unit_is(pages: Pages) -> None:
    """Among the facts at the top, with every choice that fell on it; a unit without one says nothing."""
    told = {unit: [dd.get_text() for dt in pages[f"unit/{unit}/index.html"].select("dt") if dt.get_text() == "Our choice"
                   and (dd := dt.find_next("dd")) is not None]
            for unit in ("brevik-tarn-550", "halmer-quill-850", "kestrin-bolt-850")}

    assert ["First choice and quietest choice of 500 to 600\N{NO-BREAK SPACE}W"] == [one.replace(" W", "\N{NO-BREAK SPACE}W") for one in told["brevik-tarn-550"]]
    assert [True] == [one.startswith("First choice") for one in told["halmer-quill-850"]]
    assert [] == told["kestrin-bolt-850"]


def test_verdict_sentences_differ_as_the_facts_do(pages: Pages) -> None:
    """No two units share their verdict or their description."""
    described = [str(page.find("meta", attrs={"name": "description"})) for path, page in pages.items() if path.startswith("unit/")]

    assert len(described) == len(set(described))


def test_what_a_tester_remarked_stands_beside_the_session(pages: Pages, library: Library) -> None:
    """Every session with remarks, on its unit's bench record; there is at least one in the demo."""
    remarked = [one for one in library.sessions if one.record.remarks]
    records = {one.unit: pages[f"bench/{one.unit}/index.html"].get_text().replace("\N{NO-BREAK SPACE}", " ") for one in remarked}
    missing = [one.file for one in remarked if f"Remarks: {one.record.remarks}" not in records[one.unit]]

    assert (True, []) == (bool(remarked), missing)


def test_titles_are_unique_and_short(pages: Pages) -> None:
    """At most 60 characters, one of each."""
    titles = [page.title.get_text() for page in pages.values() if page.title]

    assert len(pages) == len(set(titles))
    assert max(map(len, titles)) <= 60


def test_paid_links_say_so_and_are_marked(pages: Pages) -> None:
    """Every link with rel=sponsored has the words beside it."""
    paid = [a for page in pages.values() for a in page.select('a[rel~="sponsored"]')]

    assert paid
    assert [] == [a for a in paid if "paid" not in a.get_text()]


def test_no_page_asks_another_host_or_holds_a_style_attribute(pages: Pages) -> None:
    """Scripts, styles and pictures come from the site; the policy forbids inline ones."""
    for page in pages.values():
        assert [] == page.find_all(style=True)
        assert [] == [t for t in page.find_all(["script", "img", "iframe"]) if str(t.get("src", "")).startswith(("http", "//"))]
        policy = page.find("meta", attrs={"http-equiv": "Content-Security-Policy"})
        assert isinstance(policy, Tag)
        assert "unsafe" not in str(policy["content"])


def test_every_number_of_a_unit_leads_to_its_evidence(pages: Pages) -> None:
    """Each judged number to its line in the bench record, which names session, method and fields."""
    report, record = pages["unit/halmer-quill-850/index.html"], pages["bench/halmer-quill-850/index.html"]
    lines = {str(row["id"]): row.get_text(" ", strip=True) for row in record.find_all("tr", id=True)}
    wanted = [str(a["href"]).partition("#")[2] for a in report.select("section:has(> #limits) td a")]

    assert len(lines) > 60
    assert len(wanted) > 20
    assert [] == [anchor for anchor in wanted if anchor not in lines]
    assert [] == [line for line in lines.values() if ".yaml: " not in line]
    assert "units/halmer-quill-850/2026-01-28.yaml" in record.get_text()
    assert "Measured on 28" in record.get_text()


def test_every_line_of_a_bench_record_is_a_number_of_the_data(pages: Pages, site: Path) -> None:
    """A filled column of the CSV, but for what each protection did, which the table of protections tells in words."""
    with (site / "data/units.csv").open(encoding="utf-8", newline="") as file:
        (row,) = [row for row in csv.DictReader(file) if row["unit"] == "halmer-quill-850"]
    record = pages["bench/halmer-quill-850/index.html"]
    lines = {str(line["id"]).removeprefix("from-").replace("-", "_") for line in record.find_all("tr", id=True)}
    lacking = [name for name in lines if not any(column == name or column.startswith(f"{name}_") for column, value in row.items() if value)]

    assert len(lines) > 60
    assert [] == [name for name in lacking if not name.startswith("protections_")]


def test_hash_seed_time_zone_and_locale_change_no_byte(site: Path, tmp_path: Path) -> None:
    """Same input, same bytes, also of the whole demo; ``test_surroundings`` has each of them by itself."""
    environment = {**os.environ, "PYTHONHASHSEED": "77", "TZ": "America/Lima", "LC_ALL": "C"}
    command = [sys.executable, "-m", "guidegen", "publish", "--content", str(ROOT / "content"), "--output", str(tmp_path), "--quiet"]
    subprocess.run(command, check=True, env=environment, cwd=tmp_path, timeout=300)
    mine = {p.relative_to(tmp_path).as_posix(): p.read_bytes() for p in tmp_path.rglob("*") if p.is_file()}
    theirs = {p.relative_to(site).as_posix(): p.read_bytes() for p in site.rglob("*") if p.is_file()}

    assert sorted(theirs) == sorted(mine)
    assert [] == [name for name in mine if mine[name] != theirs[name]]
