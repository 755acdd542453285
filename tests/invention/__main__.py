"""``python3 -m tests.invention --content DIR``: writes the demo's units, prices and drawings, or a library of any size."""

import argparse
import random
from dataclasses import replace
from pathlib import Path

from tests.invention.cast import DEMO
from tests.invention.logs import write_logged_session
from tests.invention.plans import Plan
from tests.invention.writing import write_prices, write_unit

SEED = 20261118
RATINGS = (400, 450, 500, 550, 600, 650, 700, 750, 800, 850, 900, 1000, 1100, 1200, 1300, 1500, 1600)
LARGEST_SFX_W = 1000


def plans(count: int | None, seed: int) -> tuple[Plan, ...]:
    """The demo's cast, or ``count`` units varied from it."""
    if count is None:
        return DEMO
    rng = random.Random(f"{seed}|plans")
    return tuple(_variation(DEMO[i % len(DEMO)], i + 1, rng) for i in range(count))


def _variation(like: Plan, number: int, rng: random.Random) -> Plan:
    """A unit like another one at a rating of its own, a little better or worse; what grows with power grows along."""
    rated = rng.choice([w for w in RATINGS if w <= LARGEST_SFX_W] if like.form_factor == "SFX" else RATINGS)
    ratio, shift = rated / like.rated_w, rng.gauss(0, 0.4)
    at_20, at_50, at_100 = (pct + shift for pct in like.efficiency_pct)
    count, each, celsius = like.bulk
    return replace(
        like, model=f"{like.model.split()[0]} {number:04d}", rated_w=rated, predecessor=None, note=None, stand_in=None, drawn=False,
        efficiency_pct=(at_20, at_50, at_100), bulk=(count, max(10, 10 * round(each * ratio / 10)), celsius),
        ripple_12v_mv=like.ripple_12v_mv * rng.uniform(0.8, 1.25), loudest_dba=like.loudest_dba + rng.gauss(0, 1.5),
        pcie_8=max(1, round(rated / 220)),
        price_eur=like.price_eur and round(like.price_eur * ratio), price_usd=like.price_usd and round(like.price_usd * ratio),
    )


def write_library(content: Path, *, count: int | None = None, seed: int = SEED) -> tuple[Plan, ...]:
    """Units and prices below ``content``; returns the plans."""
    cast = plans(count, seed)
    for plan in cast:
        write_unit(content / "units" / plan.id, plan, random.Random(f"{seed}|{plan.id}"))
    if count is None:
        write_logged_session(content, seed=seed)
    write_prices(content / "prices", cast, seed)
    return cast


def main() -> None:
    """Reads the arguments and writes."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--content", type=Path, required=True)
    parser.add_argument("--units", type=int, default=None)
    parser.add_argument("--seed", type=int, default=SEED)
    asked = parser.parse_args()
    cast = write_library(asked.content, count=asked.units, seed=asked.seed)
    print(f"{len(cast)} units written below {asked.content}")


if __name__ == "__main__":
    main()
