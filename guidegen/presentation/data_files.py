"""Files for machines: every published number of every unit, once as CSV and once as JSON."""

import json

import pandas as pd

from guidegen.evaluation import Assessment, Standing
from guidegen.presentation.choosing import place_text
from guidegen.presentation.formatting import rounded
from guidegen.presentation.sheets import DataFile
from guidegen.records import Bracket

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")
"""Beginnings of a text cell that a spreadsheet would run as a formula."""

Row = dict[str, str | float | int | None]
"""A row of the data set."""


def data_files(assessment: Assessment) -> tuple[DataFile, ...]:
    """``data/units.csv`` and ``data/units.json``: a row a unit, empty where nothing was tested."""
    rows = [_row(s, one.ranking.bracket) for one in assessment.home for s in one.ranking.standings]
    columns = list(dict.fromkeys(name for row in rows for name in row))
    frame = pd.DataFrame.from_records(
        [{name: _guarded(row.get(name)) for name in columns} for row in rows], columns=columns
    )
    text = frame.to_csv(index=False, lineterminator="\r\n")
    document = {"edition": assessment.library.guide.edition.name, "units": rows}
    return (
        DataFile(address="data/units.csv", text=text),
        DataFile(address="data/units.json", text=json.dumps(document, indent=1, ensure_ascii=False) + "\n"),
    )


def _row(standing: Standing, bracket: Bracket) -> Row:
    one = standing.candidate
    best = one.prices.best
    row: Row = {
        "unit": one.id, "name": one.name, "maker": one.result.unit.record.maker, "bracket": bracket.id,
        "rated_power_w": float(rounded(one.result.unit.record.rated_power_w, 0)),
        "place": standing.place, "place_range": place_text(standing).replace("–", "-"), "tier": standing.tier.id,
        "score": float(rounded(one.score.low, 1)), "technical_score": float(rounded(one.score.technical, 1)),
        "region": one.prices.region.id, "currency": one.prices.region.currency,
        "price": best.row.price if best else None, "price_date": best.row.date.isoformat() if best else None,
    }
    for finding in one.result.findings:
        row[_column(finding.key, finding.quantity.unit)] = float(rounded(finding.quantity.value, finding.decimals))
    return row


def _column(key: str, unit: str) -> str:
    """The finding's key with its unit, in letters that every program takes."""
    words = {"%": "pct", "dB(A)": "dba", "°C": "c", "mV": "mv", "W": "w", "V": "v", "A": "a", "ms": "ms", "mm": "mm"}
    suffix = words.get(unit, unit.lower())
    return f"{key.replace('.', '_')}_{suffix}" if suffix else key.replace(".", "_")


def _guarded(value: str | float | None) -> str | float | int | None:
    """A text that a spreadsheet would run, made harmless by a leading apostrophe."""
    return f"'{value}" if isinstance(value, str) and value.startswith(FORMULA_STARTS) else value
