"""Content that means harm: names, sizes, floods and words of other languages; each is refused in a sentence, at its place, at once."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner

from guidegen.cli import main
from guidegen.errors import ContentError, Fault
from guidegen.flow import proof
from guidegen.origins import Origin
from guidegen.presentation.prose import Bindings, Written, sections
from guidegen.sources import read_library
from guidegen.sources.documents import LARGEST_FILE, LARGEST_PAGE, LARGEST_TABLE, MOST_FAULTS
from tests.damage import watched
from tests.publications import SMALL
from tests.tally import Tally

HEADING = "date,unit,price,currency,stock,shop,shop_kind,link,paid_link\n"
ROW = "2026-03-02,tarnbeck-kiln-650,{},EUR,in_stock,{},shop,{},false\n"
NAMES = (
    "pages/con.md", "pages/aux.md", "pages/nul.note.md", "pages/COM1.md", "pages/lpt9.md", "prices/prn.csv", "mappings/aux.yaml",
    "units/con/unit.yaml", "units/com¹/unit.yaml", "pages/how we test.md", "pages/Page.md", "pages/a..b.md", "pages/-a.md",
    "pages/a-.md", "pages/ſ.md", "pages/İ.md", "pages/ﬁne.md", "pages/e\u0301.md", "pages/a\u200b.md", "pages/a\u202e.md", "pages/a\nb.md",
    "pages/\x1b[2J.md", "pages/a\\b.md", "pages/a%2fb.md", "pages/a:b.md", "pages/a;rm.md", "pages/$(id).md", "pages/{{a}}.md", "pages/<b>.md",
    f"pages/{'a' * 81}.md", "pages/\udcff.md", "units/TARNBECK-KILN-650/unit.yaml", "units/tarnbeck\u2010kiln/unit.yaml",
    "units/tarnbeck-kiln-650/2026-13-02.YAML", "pictures/aux.png", "editions/nul/edition.json",
)
"""Names that can't be an address, or not on every system."""
FLOODS: dict[str, tuple[str, Callable[[], str]]] = {
    "a bomb of aliases": ("guide.yaml", lambda: "a: &a [x]\nb: [" + "*a, " * 400_000 + "]\n"),
    "one name again and again": ("guide.yaml", lambda: "a: 1\n" * 390_000),
    "merge keys": ("guide.yaml", lambda: "<<: {a: 1}\n" * 100_000),
    "tags": ("parts.yaml", lambda: "a: [" + "!!python/object:os.system x, " * 60_000 + "]\n"),
    "nests": ("policy.yaml", lambda: "[" * 1_900_000),
    "fields that nobody knows": ("guide.yaml", lambda: "".join(f"k{i}: 1\n" for i in range(150_000))),
    "a word that never ends": ("guide.yaml", lambda: f"title: {'x' * 1_900_000}\n"),
    "corrections of nothing": ("corrections.yaml", lambda: "- {a: 1}\n" * 200_000),
    "rows of nothing": ("prices/ie.csv", lambda: HEADING + "x,y,z,q,a,b,c,d,e\n" * 100_000),
    "a heading that never ends": ("prices/ie.csv", lambda: "a," * 500_000 + "\n"),
    "a quote that never ends": ("prices/ie.csv", lambda: HEADING + '"' + "a\n" * 500_000),
    "a file too large": ("guide.yaml", lambda: "#" * (LARGEST_FILE + 1)),
    "a table too large": ("prices/ie.csv", lambda: "#" * (LARGEST_TABLE + 1)),
    "a page too large": ("pages/how-we-test.md", lambda: "#" * (LARGEST_PAGE + 1)),
}
"""Files that grow, or never end."""
INWARD = (
    "x.__class__", "''.__class__.__mro__[1].__subclasses__()", "guide.__init__.__globals__", "self", "config", "request.application",
    "7*7", "guide.units + 1", "guide['units']", "guide.units | upper", "lipsum()", "cycler.__init__", "range(10**9)", "import os", "open('/etc/passwd')",
    "%s %n", "${7*7}", "#{7*7}", "`id`", "../../etc/passwd", "guide.units\u202e", "ｇuide.units", "guide．units", "GUIDE.UNITS", "__builtins__",
    "insert.__class__", "a" * 199, "0", "None", "True", "\\x7b", "{% raw %}", "unit:tarnbeck-kiln-650", "<script>alert(1)</script>",
)
"""Names in braces that would reach inward if anything evaluated them."""
BUSY = ("[", "![", "[a](", "*a ", "**a_", "> ", "`a ``b ", "- ", "1. x\n", "{{ ", "{{ x }} ", "<", "|a|b|\n|-|-|\n", "## a\n\n", "[a][", "[a]: b\n", "~~a", "&")
"""Beginnings of Markdown, put one behind the other up to the size of a page."""


@pytest.fixture
def content(tmp_path: Path) -> Path:
    """The small edition to put something into."""
    return Path(shutil.copytree(SMALL, tmp_path / "content"))


def faults_of(content: Path) -> tuple[Fault, ...]:
    """The faults of the content; it must have some."""
    with pytest.raises(ContentError) as refused:
        read_library(content)
    return refused.value.faults


@pytest.mark.parametrize("name", NAMES, ids=ascii)
def test_a_hostile_name_is_refused_at_its_place(content: Path, tally: Tally, name: str) -> None:
    """By the reader, and by the command, which prints nothing that could steer a terminal and writes whole documents."""
    tally.tried("hostile names of files")
    (content / name).parent.mkdir(parents=True, exist_ok=True)
    (content / name).write_text("---\ntitle: a\ndescription: b\n---\n", encoding="utf-8")
    places = {fault.origin.file for fault in faults_of(content)}
    said = CliRunner().invoke(main, ["proof", "--quiet", "--content", str(content)])
    document = CliRunner().invoke(main, ["proof", "--quiet", "--json", "--content", str(content)])

    assert {name, name.rpartition("/")[0]} & places
    assert (1, 1) == (said.exit_code, document.exit_code)
    assert all(char.isprintable() or char in "\n\ufffd" for char in said.stderr.replace("\udcff", ""))
    assert json.loads(document.stdout)["faults"]


@pytest.mark.parametrize("name", FLOODS)
def test_a_flood_is_refused_before_it_costs_anything(content: Path, tally: Tally, name: str) -> None:
    """In a few seconds of computing, and with no more faults than somebody would read."""
    file, text = FLOODS[name]
    tally.tried("floods")
    (content / file).write_text(text(), encoding="utf-8")
    with watched(8.0):
        faults = faults_of(content)

    assert {file} <= {fault.origin.file for fault in faults}
    assert len(faults) <= MOST_FAULTS + 20


def test_links_out_of_the_content_are_refused_wherever_they_are(content: Path, tmp_path: Path, tally: Tally) -> None:
    """Files and folders, of every kind, by way of another link, too."""
    (tmp_path / "secret").mkdir()
    (tmp_path / "secret" / "unit.yaml").write_text("secret: yes\n", encoding="utf-8")
    links = {"prices/fr.csv": "secret/unit.yaml", "mappings": "secret", "units/tarnbeck-kiln-650/2026-03-03.yaml": "secret/unit.yaml",
             "corrections.yaml": "secret/unit.yaml", "units/lent": "secret", "pages/hop.md": "content/hop"}
    (content / "hop").symlink_to(tmp_path / "secret" / "unit.yaml")
    for name, target in links.items():
        tally.tried("links out of the content")
        (content / name).symlink_to(tmp_path / target)
    faults = faults_of(content)

    assert links.keys() <= {fault.origin.file for fault in faults}
    assert not any("secret" in fault.text for fault in faults)


@pytest.mark.parametrize("name", INWARD)
def test_a_name_that_reaches_inward_finds_nothing(name: str, tally: Tally) -> None:
    """A fault, or plain text; never a value."""
    tally.tried("names that reach inward")
    faults: list[Fault] = []
    made = sections(Written(text=f"a {{{{ {name} }}}} b", origin=Origin("pages/x.md"), first_line=5),
                    Bindings(values={"guide.units": "39"}, inserts={}), page="x/", faults=faults)

    assert [name] == [fault.came for fault in faults] or "{{" in made[0].html.replace("&#123;", "{")
    assert "39" not in made[0].html
    assert "49" not in made[0].html


@pytest.mark.parametrize("beginning", BUSY)
def test_the_largest_page_of_prose_is_set_in_bounded_time(beginning: str, tally: Tally) -> None:
    """Whatever it consists of."""
    tally.tried("pages that keep Markdown busy")
    text = (beginning * LARGEST_PAGE)[:LARGEST_PAGE]
    with watched(10.0):
        made = sections(Written(text=text, origin=Origin("pages/x.md"), first_line=5), Bindings(values={}, inserts={}), page="x/", faults=[])

    assert "<script" not in "".join(section.html for section in made)


@pytest.mark.parametrize("cell", ["=1+1", "+1", "-1", "@x", '=HYPERLINK("//evil.example")', "\t=1", "=cmd|' /C calc'!A0", "'; DROP TABLE", "<b>"])
def test_a_cell_of_a_price_table_is_a_price_or_refused(content: Path, tally: Tally, cell: str) -> None:
    """And the address of a shop is one."""
    quoted = '"' + cell.replace('"', '""') + '"'
    for price, link in ((quoted, "https://shop.example/a"), ("90.00", quoted), ("90.00", '"//evil.example"'), ("90.00", "javascript:alert(1)")):
        tally.tried("hostile cells of price tables")
        (content / "prices" / "ie.csv").write_text(HEADING + ROW.format(price, "Shop", link), encoding="utf-8")
        assert {"prices/ie.csv"} == {fault.origin.file for fault in faults_of(content)}


@pytest.mark.parametrize("version", ["0", "2", "1.5", '"1"', "-1", "one"])
@pytest.mark.parametrize("file", ["guide.yaml", "policy.yaml", "parts.yaml", "units/tarnbeck-kiln-650/unit.yaml", "units/tarnbeck-kiln-650/2026-03-02.yaml"])
def test_a_record_of_another_format_is_named_with_what_to_change(content: Path, file: str, version: str) -> None:
    """The field, what came, and the version that this program reads."""
    path = content / file
    text = path.read_text(encoding="utf-8")
    assert "format: 1\n" in text
    path.write_text(text.replace("format: 1\n", f"format: {version}\n"), encoding="utf-8")
    (fault,) = faults_of(content)

    assert (file, ("format",)) == (fault.origin.file, fault.origin.path)
    assert fault.expected.startswith("1")


def test_a_content_that_is_no_folder_is_answered(tmp_path: Path) -> None:
    """A file, nothing, a link that leads in a circle."""
    (tmp_path / "file").write_text("x", encoding="utf-8")
    (tmp_path / "circle").symlink_to(tmp_path / "circle")
    for name in ("file", "nowhere", "circle"):
        with pytest.raises(ContentError, match="came no content folder"):
            proof(tmp_path / name)
    assert {"file", "circle"} == {path.name for path in tmp_path.iterdir()}
