"""What all samples of a unit share beside its plan: label, trip points, the standby converter, the charging current."""

import random

from tests.invention.plans import Plan

SHORT_OF_SHUT_DOWN = 1.04
"""A unit that falls short of its label switches off this much above the power that it holds."""


def rail_amps(plan: Plan) -> dict[str, float]:
    """Currents on the label, A."""
    return {"12v": round(plan.rated_w * 0.995 / 12, 1), "5v": 20.0, "3v3": 20.0, "5vsb": 3.0 if plan.rated_w >= 700 else 2.5}


class Design:
    """Drawn from the name alone, so that two samples of a unit agree and readings elsewhere don't move."""

    def __init__(self, plan: Plan) -> None:
        rng = random.Random(f"{plan.id}|design")
        self.opp = min(1.44, max(1.16, plan.trip + rng.uniform(-0.1, 0.12)))
        self.ocp_12v = self.opp + rng.uniform(-0.02, 0.03)
        self.ocp_minor = 1.2 + rng.uniform(0, 0.4)
        self.holds = self.opp - rng.uniform(0.03, 0.05)
        if plan.holds is not None:
            self.holds = plan.holds
            self.opp = self.ocp_12v = plan.holds * SHORT_OF_SHUT_DOWN
        plain = plan.efficiency_pct[1] < 88
        self.standby_w = rng.uniform(0.21, 0.3) if plain else rng.uniform(0.04, 0.12)
        self.standby_share = rng.uniform(0.7, 0.76) if plain else rng.uniform(0.78, 0.86)
        self.inrush_a = (38 if plan.inrush == "ntc_relay" else 52) * rng.uniform(0.85, 1.2)

    def reaches(self, share: float) -> bool:
        """Whether a share of the rating can be held long enough to be read."""
        return share <= self.holds
