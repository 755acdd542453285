"""Price tables as spreadsheets write them."""

from guidegen.sources.tables import COLUMNS, places_of_table, read_prices

HEADING = ",".join(COLUMNS)
ROW = "2026-04-13,kiln-650,112.00,EUR,in_stock,Harbour Parts,shop,,false"


def test_columns_stand_in_any_order() -> None:
    """The heading decides."""
    text = f"paid_link,{HEADING.removesuffix(',paid_link')}\ntrue,{ROW.removesuffix(',false')}\n"
    rows, faults = read_prices(text, "prices/ie.csv")

    assert ((), True, 112.0) == (faults, rows[0].paid_link, rows[0].price)


def test_a_price_may_be_empty() -> None:
    """Where only the stock was seen."""
    rows, faults = read_prices(f"{HEADING}\n{ROW.replace('112.00', '')}\n", "prices/ie.csv")

    assert ((), None) == (faults, rows[0].price)


def test_rows_are_counted_without_empty_lines_but_lines_with_them() -> None:
    """The place of a row is that in the list; its line is that in the file, also behind cells of several lines."""
    text = f'{HEADING}\r\n\r\n{ROW.replace("Harbour Parts", chr(34) + "Harbour" + chr(10) + "Parts" + chr(34))}\r\n\r\n{ROW}\r\n'
    rows, faults = read_prices(text, "prices/ie.csv")
    places = places_of_table(text)

    assert ((), 2, "Harbour\nParts") == (faults, len(rows), rows[0].shop)
    assert (3, 6) == (places[0,].line, places[1, "price"].line)


def test_a_quote_that_is_never_closed_is_a_fault() -> None:
    """The table breaks off; no row is guessed."""
    rows, faults = read_prices(f'{HEADING}\n{ROW}\n"2026', "prices/ie.csv")

    assert () == rows
    assert "cells between commas, each opening quote closed" == faults[0].expected


def test_semicolons_are_named() -> None:
    """What spreadsheets of some countries write."""
    _, faults = read_prices(HEADING.replace(",", ";"), "prices/ie.csv")

    assert ["prices/ie.csv:1: came cells between semicolons, expected cells between commas"] == [f.message for f in faults]


def test_an_empty_table_is_told_its_heading() -> None:
    """So that it can be copied."""
    _, faults = read_prices("\n", "prices/ie.csv")

    assert [f"the heading {HEADING}"] == [fault.expected for fault in faults]
