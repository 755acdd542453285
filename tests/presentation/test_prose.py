"""Prose: numbers bound to the data, and HTML that can hold nothing else."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from guidegen.errors import Fault
from guidegen.origins import Origin
from guidegen.presentation.prose import Bindings, Written, bind, inline, sections
from guidegen.presentation.tables import plain_table

BINDINGS = Bindings(values={"guide.units": "39", "evil": "<b>", "marked": "*a*\n=\n[b](page:home) `c`"}, inserts={"t": plain_table("t", "T", ("a",), (("1",),))})


def written(text: str) -> Written:
    """Prose that begins on line 5 of a file."""
    return Written(text=text, origin=Origin("pages/x.md"), first_line=5)


def html(text: str) -> tuple[str, list[Fault]]:
    """A paragraph, set on a page two folders deep."""
    faults: list[Fault] = []
    return inline(written(text), BINDINGS, page="unit/x/", faults=faults), faults


def test_a_name_becomes_its_value() -> None:
    """Wherever it stands."""
    assert ("39 units", []) == html("{{ guide.units }} units")


def test_an_unknown_name_is_a_fault_with_line_column_and_the_nearest_name() -> None:
    """Publication stops on it."""
    faults: list[Fault] = []
    bind(written("one\ntwo {{ guide.unit }}"), BINDINGS, faults)

    assert [(6, 5, "guide.unit", "guide.units")] == [(f.line, f.column, f.came, f.nearest) for f in faults]


def test_a_name_is_looked_up_and_never_evaluated() -> None:
    """Ways into the language lead nowhere."""
    for text in ("{{ ''.__class__ }}", "{{ guide.units.__class__ }}", "{{ 7*7 }}", "{{ config }}"):
        made, faults = html(text)
        assert ("", 1) == (made, len(faults))


def test_a_value_is_no_markdown() -> None:
    """Its signs are printed, and its line ends are blanks."""
    assert ("*a* = [b](page:home) `c`", []) == html("{{ marked }}")


def test_raw_html_and_foreign_schemes_stay_text() -> None:
    """Nothing that a browser would run comes through."""
    made, _ = html("<script>x</script> [a](javascript:alert(1)) [b](data:text/html,x) [c](//evil.example) {{ evil }}")

    assert "<script" not in made
    assert "href" not in made
    assert "<b>" not in made


def test_links_inside_the_site_are_relative_to_the_page() -> None:
    """From two folders deep, back to the root."""
    made, _ = html("[s](page:how-many-watts) [b](watts:650) [u](unit:a-b) [h](page:home)")

    for address in ("../../how-many-watts/index.html", "../../watts/650/index.html", "../../unit/a-b/index.html", "../../index.html"):
        assert f'href="{address}"' in made


def test_a_link_to_a_name_that_nobody_has_is_a_fault_with_the_nearest() -> None:
    """In the prose itself, with its line: not as a page that leads nowhere."""
    known = replace(BINDINGS, places={"unit": ("hobley-lark-450",), "words": ("ripple",)})
    faults: list[Fault] = []
    text = "[a](unit:hobley-lark-450) [b](words:ripple) [c](words:#ripple) [d](words:)\n\n[e](unit:hobley-lrk-450#limits) [f](words:ripples) [g](watts:650)"
    sections(written(text), known, page="x/", faults=faults)

    assert [(7, "the link unit:hobley-lrk-450#limits", "unit:hobley-lark-450"), (7, "the link words:ripples", "words:ripple")] == [
        (fault.line, fault.came, fault.nearest) for fault in faults]
    assert '<a href="../words/index.html#ripple">b</a>' in sections(written(text), known, page="x/", faults=[])[0].html


def test_a_page_is_cut_at_its_headings_and_tables_stand_where_they_were_called() -> None:
    """The stretch before the first heading has no title."""
    faults: list[Fault] = []
    made = sections(written("Lead.\n\n## One thing\n\ntext\n\n{{ insert.t }}\n"), BINDINGS, page="x/", faults=faults)

    assert [("", "", 0), ("one-thing", "One thing", 1)] == [(s.id, s.title, len(s.tables)) for s in made]
    assert [] == faults


def test_an_unknown_table_is_a_fault_on_its_line() -> None:
    """Line 5 is the first of the body; the insert stands on the third."""
    faults: list[Fault] = []
    sections(written("a\n\n{{ insert.nothing }}\n"), BINDINGS, page="x/", faults=faults)

    assert [(7, "nothing")] == [(f.line, f.came) for f in faults]


@given(st.text(max_size=200))
def test_any_text_is_set_without_an_error_and_without_a_script(text: str) -> None:
    """Whatever an editor types."""
    made, _ = html(text)

    assert "<script" not in made.lower()


def test_an_anchor_written_behind_a_heading_is_kept() -> None:
    """The words may change, and links to the place still hold."""
    made = sections(written("## One thing {#thing}\n\ntext\n"), BINDINGS, page="x/", faults=[])

    assert [("thing", "One thing")] == [(s.id, s.title) for s in made]


def test_what_has_no_place_above_the_first_heading_is_a_fault() -> None:
    """A table called for in the opening words would be lost; the fault stands on its line."""
    faults: list[Fault] = []
    sections(written("a\n\n{{ insert.t }}\n\n## One thing\n"), BINDINGS, page="x/", faults=faults)

    assert [(7, "insert.t above the first heading")] == [(fault.line, fault.came) for fault in faults]


def test_two_headings_with_one_anchor_are_a_fault() -> None:
    """On the line of the second, with that of the first; an anchor of one's own sets them apart."""
    faults: list[Fault] = []
    sections(written("## One thing\n\na\n\n## One  thing\n\nb\n\n## One thing {#other}\n"), BINDINGS, page="x/", faults=faults)

    assert [(9, "the heading 'One  thing' with the anchor one-thing of line 5")] == [
        (fault.line, fault.came) for fault in faults]


def test_of_a_unit_no_other_unit_s_number_is_suggested() -> None:
    """A number that was not taken at the guide's mains is missing there; the neighbour's would be a lie. A slip is still seen."""
    values = {"policy.mains": "115 V", "units.a-650.name": "A", "units.a-650.ripple.12v": "20 mV", "units.b-650.efficiency.at_50": "90 %"}
    told = {}
    for name in ("units.a-650.efficiency.at_50", "units.a-650.riple.12v", "units.a-650.scor", "units.a-560.name"):
        faults: list[Fault] = []
        bind(written(f"{{{{ {name} }}}}"), replace(BINDINGS, values=values), faults)
        told[name] = (faults[0].nearest, faults[0].expected)

    lacking = "the name of a published value; a-650 has no such number (compared numbers are those at 115 V of mains, the guide's own)"
    assert {
        "units.a-650.efficiency.at_50": ("", lacking), "units.a-650.riple.12v": ("units.a-650.ripple.12v", lacking),
        "units.a-650.scor": ("", lacking), "units.a-560.name": ("units.a-650.name", "the name of a published value"),
    } == told
