"""Drawings of invented units: the side with the sockets, as a plain line drawing."""

from pathlib import Path

from tests.invention.plans import Plan, Record

PINS = {
    "main_24": (12, 2, "board, 24"), "cpu_8": (4, 2, "processor"), "pcie_8": (4, 2, "graphics"),
    "pcie_16_12v_2x6": (6, 2, "graphics, 16"), "pcie_16_12vhpwr": (6, 2, "graphics, 16"),
    "sata": (5, 1, "drives"), "peripheral_4": (4, 1, "drives, old"),
}
"""Contacts across and down of each socket, and what it feeds."""
SCALE = 4
"""Pixels a millimetre."""
PIN, GAP, EDGE, LETTERS = 14, 4, 28, 15
INK, PAPER = "#1d2024", "#faf8f2"


def sockets(rows: list[Record]) -> list[str]:
    """A socket for each cable that can be unplugged, in the order of the box."""
    return [row["connector"] for row in rows if not row["fixed"] for _ in range(row["cables"])]


def panel(plan: Plan, rows: list[Record]) -> str:
    """The side with the sockets as SVG, to scale in its outline."""
    wide, high = (125, 64) if plan.form_factor == "SFX" else (150, 86)
    width, height = wide * SCALE, high * SCALE
    out = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" viewBox="0 0 {width} {height}">',
        f"<title>{plan.model}: the side with the sockets</title>",
        f'<rect x="1" y="1" width="{width - 2}" height="{height - 2}" fill="{PAPER}" stroke="{INK}" stroke-width="2"/>',
    ]
    x, y, row_high = EDGE, EDGE, 0
    for name in sockets(rows):
        across, down, feeds = PINS[name]
        box_wide, box_high = across * (PIN + GAP) + GAP, down * (PIN + GAP) + GAP
        room = max(box_wide, 8 * len(feeds))
        if x + room > width - EDGE:
            x, y, row_high = EDGE, y + row_high + 36, 0
        out += [f'<rect x="{x}" y="{y}" width="{box_wide}" height="{box_high}" fill="none" stroke="{INK}"/>']
        out += [
            f'<rect x="{x + GAP + i * (PIN + GAP)}" y="{y + GAP + j * (PIN + GAP)}" width="{PIN}" height="{PIN}" fill="none" stroke="{INK}"/>'
            for j in range(down) for i in range(across)
        ]
        out.append(f'<text x="{x}" y="{y + box_high + 17}" font-family="sans-serif" font-size="{LETTERS}" fill="{INK}">{feeds}</text>')
        x, row_high = x + room + 20, max(row_high, box_high)
    assert y + row_high + 20 < height, f"{plan.id}: the sockets need more room than the side has"
    return "\n".join([*out, "</svg>"]) + "\n"


def write_drawing(folder: Path, plan: Plan, rows: list[Record]) -> None:
    """The drawing of a unit in the folder of pictures."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / f"{plan.id}.svg").write_text(panel(plan, rows), encoding="utf-8", newline="\n")


def picture_record(plan: Plan, rows: list[Record]) -> Record:
    """What the unit's record says of the drawing."""
    count = len(sockets(rows))
    return {"file": f"pictures/{plan.id}.svg", "words": f"Drawing of the side with its {count} sockets, invented like the unit"}
