"""Every protection called upon, or said why not."""

import random

from tests.invention.design import Design, rail_amps
from tests.invention.plans import Plan, Record

PROTECTIONS = (
    "ocp_12v", "ocp_5v", "ocp_3v3", "opp", "ovp_12v", "ovp_5v", "ovp_3v3", "uvp_12v", "uvp_5v", "uvp_3v3", "scp", "otp",
    "no_load", "surge",
)
TRIP_V = {"ovp_12v": 14.4, "ovp_5v": 6.2, "ovp_3v3": 4.0, "uvp_12v": 9.8, "uvp_5v": 4.1, "uvp_3v3": 2.7}
TEST_ENDS = {"otp": "130 °C at the heat sink", "opp": "160 % of the rating", "surge": "2 kV"}
"""Where the lab stops calling upon a protection that does not act."""


def protections(plan: Plan, design: Design, rng: random.Random) -> list[Record]:
    """One row a protection."""
    return [{"protection": name, **_called_upon(name, plan, design, rng)} for name in PROTECTIONS]


def _called_upon(name: str, plan: Plan, design: Design, rng: random.Random) -> Record:
    untested = dict(plan.untested)
    if name in untested:
        return {"outcome": "not_tested", "why_not_tested": untested[name]}
    if name in plan.missing:
        return {"outcome": "did_not_act", "tested_up_to": TEST_ENDS.get(name, "the end of the test")}
    rated, spread = rail_amps(plan), 1 + rng.gauss(0, 0.01)
    row: Record = {"outcome": "acted"}
    if name.startswith("ocp"):
        share = design.ocp_12v if name == "ocp_12v" else design.ocp_minor
        row["trip_current_a"] = round(rated[name.removeprefix("ocp_")] * share * spread, 1)
    elif name == "opp":
        held = round(plan.rated_w * design.holds)  # what was held can't lie above where it trips
        row["trip_power_w"] = max(round(plan.rated_w * design.opp * spread), held + 1)
    elif name in TRIP_V:
        row["trip_voltage_v"] = round(TRIP_V[name] * spread, 2)
    elif name == "otp":
        row["trip_temperature_c"] = round(108 + 12 * rng.random())
    return row
