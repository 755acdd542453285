"""Records written the way a person would write them: short comments, a row a load point."""

import csv
import io
import json
import random
from datetime import date, timedelta
from pathlib import Path
from typing import Any

from tests.invention.bench import session
from tests.invention.design import rail_amps
from tests.invention.drawings import picture_record, write_drawing
from tests.invention.plans import Plan, Record

EDITION = date(2026, 11, 18)
LAST_PRICE = date(2026, 11, 16)
WEEKS = 30
SHOPS = {
    "ie": (("Copperfield Parts", "copperfield-parts.example", True), ("Rathmore Computing", "rathmore.example", False)),
    "us": (("Juniper Components", "juniper-components.example", True), ("Blue Mesa Supply", "blue-mesa.example", False)),
}
PRICE_COLUMNS = ("date", "unit", "price", "currency", "stock", "shop", "shop_kind", "link", "paid_link")


def scalar(value: Any) -> str:
    """A value as YAML has it; text in quotation marks wherever it could be misread."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        return repr(value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, list | tuple):
        return f"[{', '.join(scalar(item) for item in value)}]"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{k}: {scalar(v)}" for k, v in value.items()) + "}"
    text = str(value)
    plain = text.replace("_", "").replace("-", "").replace(" ", "").isalpha() and text.lower() not in (
        "yes", "no", "on", "off", "y", "n", "null", "true", "false") and text.isascii()
    return text if plain else json.dumps(text, ensure_ascii=False)


def lines(record: Record, indent: int = 0) -> list[str]:
    """A record as lines; lists of flat rows stay a row a line, wrapped."""
    pad, out = " " * indent, []
    for key, value in record.items():
        if isinstance(value, dict) and (indent or any(isinstance(v, list | dict) for v in value.values())):
            out += [f"{pad}{key}:", *lines(value, indent + 2)]
        elif isinstance(value, dict):
            out.append(f"{pad}{key}: {scalar(value)}")
        elif isinstance(value, list) and value and isinstance(value[0], dict):
            out.append(f"{pad}{key}:")
            for row in value:
                out += wrapped(row, f"{pad}  - ")
        else:
            out.append(f"{pad}{key}: {value if key in ('date', 'released') else scalar(value)}")
    return out


def wrapped(row: Record, lead: str, width: int = 116) -> list[str]:
    """A row as a flow mapping that goes on under itself when it is long."""
    cells = [f"{k}: {scalar(v)}" for k, v in row.items()]
    out, line = [], lead + "{"
    for i, cell in enumerate(cells):
        piece = cell + (", " if i < len(cells) - 1 else "}")
        if len(line) + len(piece) > width:
            out.append(line.rstrip())
            line = " " * (len(lead) + 1)
        line += piece
    return [*out, line]


def unit_record(plan: Plan) -> Record:
    """A unit record."""
    count, each, celsius = plan.bulk
    claims: Record = {"badge": plan.badge}
    claims |= {"badge_mains": plan.badge_mains} if plan.badge_mains else {}
    claims |= {"standard": plan.standard, "protections": list(plan.claimed_protections)}
    claims |= {"noise_dba": plan.claimed_noise_dba} if plan.claimed_noise_dba else {}
    record: Record = {
        "format": 1, "maker": plan.maker, "model": plan.model, "revision": plan.revision,
        **({"predecessor": plan.predecessor} if plan.predecessor else {}),
        "platform_maker": plan.platform_maker, "released": plan.released, "rated_power_w": plan.rated_w,
        "rails": [{"rail": rail, "rated_current_a": amps} for rail, amps in rail_amps(plan).items()],
        "minor_rails_power_w": 120, "form_factor": plan.form_factor,
        "size": {"width_mm": 125 if plan.form_factor == "SFX" else 150, "height_mm": 64 if plan.form_factor == "SFX" else 86, "depth_mm": plan.depth_mm},
        "claims": claims,
        "construction": {
            "primary": plan.primary if plan.rated_w < 1200 or plan.primary != "half_bridge_llc" else "full_bridge_llc",
            "secondary": plan.secondary,
            "bulk_capacitors": {"maker_class": plan.capacitors, "count": count, "capacitance_uf": each, "voltage_v": 420 if celsius == 105 else 400, "temperature_c": celsius},
            "output_capacitors": {"maker_class": plan.capacitors, "temperature_c": plan.output_c, "polymer": plan.secondary == "synchronous_dc_dc"},
            "inrush_limiter": plan.inrush,
        },
        "fan": {"size_mm": plan.fan_mm, "bearing": plan.bearing, "semi_passive": plan.fan_starts > 0},
        "cables": cables(plan), "warranty_years": plan.warranty_years,
    }
    record |= {"pictures": [picture_record(plan, cables(plan))]} if plan.drawn else {}
    return record | ({"editor_note": plan.note} if plan.note else {})


def cables(plan: Plan) -> list[Record]:
    """What comes in the box."""
    short = plan.form_factor == "SFX"
    fixed = plan.fixed_cables
    rows: list[Record] = [
        {"connector": "main_24", "count": 1, "cables": 1, "length_mm": 300 if short else 600, "fixed": fixed or (plan.rated_w < 500 and not short)},
        {"connector": "cpu_8", "count": 1 if plan.rated_w < 650 else 2, "cables": 1 if plan.rated_w < 650 else 2, "length_mm": 400 if short else 650, "fixed": fixed},
        {"connector": "pcie_8", "count": plan.pcie_8, "cables": max(1, plan.pcie_8 - 1), "length_mm": 400 if short else 600, "fixed": fixed},
    ]
    if plan.pcie_16:
        plug = "pcie_16_12v_2x6" if plan.standard == "atx_3.1" else "pcie_16_12vhpwr"
        rows.append({"connector": plug, "count": 1 if plan.rated_w < 1200 else 2, "cables": 1 if plan.rated_w < 1200 else 2, "length_mm": 400 if short else 650, "fixed": False})
    rows += [
        {"connector": "sata", "count": plan.drive_plugs, "cables": max(1, plan.drive_plugs // 3), "length_mm": 300 if short else 500, "fixed": fixed},
        {"connector": "peripheral_4", "count": 2, "cables": 1, "length_mm": 500, "fixed": fixed},
    ]
    return rows


def write_unit(folder: Path, plan: Plan, rng: random.Random) -> None:
    """Folder of a unit with its record and sessions."""
    folder.mkdir(parents=True, exist_ok=True)
    head = f"# {plan.maker} {plan.model}: box, label and build. Invented."
    _write(folder / "unit.yaml", [head, *lines(unit_record(plan))])
    if plan.drawn:
        write_drawing(folder.parents[1] / "pictures", plan, cables(plan))
    day = date(2026, 1, 12) + timedelta(days=rng.randrange(0, 250))
    for i in range(plan.samples):
        when = day + timedelta(days=40 * i)
        _write_session(folder, plan, session(plan, mains=230, day=when.isoformat(), sample="ab"[i], rng=rng))
    if plan.badge_mains == "115v_internal" or rng.random() < 0.28:
        after = (day + timedelta(days=1)).isoformat()
        _write_session(folder, plan, session(plan, mains=115, day=after, sample="a", rng=rng))


def _write_session(folder: Path, plan: Plan, record: Record) -> None:
    day, sample, mains = record["date"], record["sample"]["id"], 115 if record["mains"]["voltage_v"] < 160 else 230
    head = f"# One session: {plan.maker} {plan.model}, sample {sample}, {mains} V. Invented."
    _write(folder / f"{day}.yaml", [head, *lines(record)])


def _write(path: Path, text: list[str]) -> None:
    path.write_text("\n".join(text) + "\n", encoding="utf-8", newline="\n")


def write_prices(folder: Path, plans: tuple[Plan, ...], seed: int) -> None:
    """Price tables of both regions: two shops, a row every other week each, a sale now and then."""
    folder.mkdir(parents=True, exist_ok=True)
    for region, currency in (("ie", "EUR"), ("us", "USD")):
        rows = [row for plan in plans for row in _price_rows(plan, region, currency, random.Random(f"{seed}|{region}|{plan.id}"))]
        rows.sort(key=lambda row: (row[0], row[1], row[5]))
        text = io.StringIO()
        writer = csv.writer(text, lineterminator="\n")
        writer.writerows([PRICE_COLUMNS, *rows])
        (folder / f"{region}.csv").write_text(text.getvalue(), encoding="utf-8", newline="\n")


def _price_rows(plan: Plan, region: str, currency: str, rng: random.Random) -> list[tuple[str, ...]]:
    base = plan.price_eur if region == "ie" else plan.price_usd
    if base is None:
        return []
    rows: list[tuple[str, ...]] = []
    drift = 1.12
    for week in range(WEEKS):
        drift *= 1 - 0.0038 + rng.gauss(0, 0.004)
        day = LAST_PRICE - timedelta(weeks=WEEKS - 1 - week)
        if plan.sold == "stale" and day > LAST_PRICE - timedelta(weeks=12):
            break
        for i, (shop, host, paid) in enumerate(SHOPS[region]):
            if (week + i) % 2 and week != WEEKS - 1:
                continue
            sale = 0.86 if rng.random() < 0.05 else 1.0
            price = round(base * drift * sale * (1 + 0.015 * i), 0) - 0.1
            scarce = plan.sold == "scarce" and rng.random() < 0.85
            stock = "out_of_stock" if scarce else "few_left" if rng.random() < 0.08 else "in_stock"
            rows.append((day.isoformat(), plan.id, f"{price:.2f}", currency, stock, shop, "shop", f"https://{host}/{plan.id}", str(paid).lower()))
    return rows
