"""The invented bench: a loss model, rails, ripple, a fan, and instruments that scatter."""

import math
import random
from collections.abc import Iterator

from tests.invention.design import Design, rail_amps
from tests.invention.plans import Plan, Record
from tests.invention.protections import protections

LOADS = (5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100, 110)
PENALTY_115 = {0.2: 0.9, 0.5: 1.2, 1.0: 2.1}
"""Points of efficiency lost at 115 V."""
BACKGROUND_DBA = 16.2
SILENT_DBA = 9.0


def whole(value: float) -> float:
    """A number without a needless ``.0``."""
    return int(value) if value == int(value) else value


class Specimen:
    """One sample of a plan on the bench, with its own small differences."""

    def __init__(self, plan: Plan, mains: int, rng: random.Random) -> None:
        self.plan, self.mains, self.rng = plan, mains, rng
        self.losses = self._solve()
        self.loud = plan.loudest_dba + rng.gauss(0, 0.25)
        self.design = Design(plan)

    def _solve(self) -> tuple[float, float, float]:
        """a, b, c of the loss per unit of rating, through the three efficiencies."""
        loads = (0.2, 0.5, 1.0)
        pct = [e - (PENALTY_115[p] if self.mains == 115 else 0) for e, p in zip(self.plan.efficiency_pct, loads, strict=True)]
        x = [p * (100 / e - 1) for p, e in zip(loads, pct, strict=True)]
        c = ((x[2] - x[0]) / 0.8 - (x[1] - x[0]) / 0.3) / (1.0 - 0.5)
        b = (x[1] - x[0]) / 0.3 - c * 0.7
        return x[0] - b * 0.2 - c * 0.04, b, c

    def loss_w(self, share: float) -> float:
        """True loss at a share of the rating, W."""
        a, b, c = self.losses
        constant = a * (1 - self.plan.light_gain * math.exp(-share / 0.06))
        return self.plan.rated_w * (constant + b * share + c * share * share)

    def rpm(self, share: float) -> float:
        """Fan speed at a share of the rating."""
        plan = self.plan
        top = 1900.0 if plan.fan_mm >= 120 else 3200.0
        if plan.fan_starts and share <= plan.fan_starts:
            return 0.0
        way = max(0.0, (share - plan.fan_starts) / (1.1 - plan.fan_starts)) ** plan.fan_bend
        return float(top * (plan.idle_rpm_share + (1 - plan.idle_rpm_share) * way))

    def level_dba(self, share: float) -> float:
        """True level at 1 m: fan by 50·lg of its speed, over a faint floor of coil noise."""
        top = 1900.0 if self.plan.fan_mm >= 120 else 3200.0
        rpm = self.rpm(share)
        fan = self.loud + 50 * math.log10(rpm / top) if rpm else 0.0
        return float(10 * math.log10(10 ** (fan / 10) + 10 ** (SILENT_DBA / 10)))

    def load_point(self, pct: float) -> Record:
        """One steady load as the instruments show it."""
        plan, g = self.plan, self.rng.gauss
        share = pct / 100
        wanted = share * plan.rated_w
        volts = {
            "12v": plan.set_point_v - 12 * plan.droop * share + g(0, 0.002),
            "5v": 5.04 - 0.05 * share * (1 + plan.droop * 20) + g(0, 0.001),
            "3v3": 3.32 - 0.035 * share * (1 + plan.droop * 20) + g(0, 0.001),
            "5vsb": 5.06 - 0.04 * share + g(0, 0.001),
        }
        minor = 0.055 * wanted
        amps = {
            "5v": minor / 5, "3v3": 0.6 * minor / 3.3, "5vsb": min(2.5, 0.1 + 1.4 * share),
        }
        rest = wanted - sum(volts[r] * round(amps[r], 2) for r in amps)
        amps["12v"] = max(0.0, rest / volts["12v"])
        out = sum(round(volts[r], 3) * round(a, 2) for r, a in amps.items())
        into = (out + self.loss_w(share)) * (1 + g(0, 0.0004))
        return {
            "load_pct": whole(pct), "delivered_power_w": round(out, 1), "input_power_w": round(into, 1),
            "power_factor": round(min(0.999, self._power_factor(share) + g(0, 0.001)), 3),
            **{f"voltage_{r}_v": round(volts[r], 3) for r in ("12v", "5v", "3v3", "5vsb")},
            **{f"current_{r}_a": round(amps[r], 2) for r in ("12v", "5v", "3v3", "5vsb")},
            "ripple_12v_mv": self._ripple(plan.ripple_12v_mv, share), "ripple_5v_mv": self._ripple(plan.ripple_minor_mv, share),
            "ripple_3v3_mv": self._ripple(plan.ripple_minor_mv * 1.05, share), "ripple_5vsb_mv": self._ripple(12, share),
            "fan_rpm": int(round(self.rpm(share), -1)), "intake_c": round(24 + 6 * share + g(0, 0.2), 1),
            "exhaust_c": round(25.5 + 6 * share + 60 * self.loss_w(share) / plan.rated_w + g(0, 0.3), 1),
        }

    def _power_factor(self, share: float) -> float:
        low, knee = (0.55, 0.045) if self.mains == 230 else (0.35, 0.018)
        return 0.993 - low * math.exp(-share / 0.11) * 0.35 - knee * math.exp(-share / 0.35)

    def _ripple(self, full: float, share: float) -> int:
        true = full * (0.42 + 0.2 * share + 0.38 * share * share)
        return max(3, round(true * (1 + self.rng.gauss(0, 0.03))))

    def load_points(self) -> list[Record]:
        """All steady loads, the light load first."""
        light = max(2.0, 1000.0 / self.plan.rated_w) if self.plan.rated_w <= 500 else 2.0
        return [self.load_point(round(light, 2)), *(self.load_point(pct) for pct in LOADS if self.design.reaches(pct / 100))]

    def noise_points(self) -> Iterator[Record]:
        """Noise over load at four positions, background included, as read."""
        for pct in LOADS:
            if not self.design.reaches(pct / 100):
                continue
            true = self.level_dba(pct / 100)
            levels = [
                round(10 * math.log10(10 ** ((true + self.rng.gauss(0, 0.4)) / 10) + 10 ** (BACKGROUND_DBA / 10)), 1)
                for _ in range(4)
            ]
            yield {
                "delivered_power_w": round(pct / 100 * self.plan.rated_w, 1), "levels_dba": levels,
                "background_dba": BACKGROUND_DBA, "fan_rpm": int(round(self.rpm(pct / 100), -1)),
            }

    def hold_up(self) -> list[Record]:
        """Hold-up by the energy of the bulk capacitors, with scatter."""
        count, each, _ = self.plan.bulk
        rows = []
        for pct in (80, 100):
            share = pct / 100
            if not self.design.reaches(share):
                continue
            load = share * self.plan.rated_w
            efficiency = load / (load + self.loss_w(share))
            energy = 0.5 * count * each * 1e-6 * (388**2 - 302**2)
            rails = 1000 * energy * efficiency / load * (1 + self.rng.gauss(0, 0.02))
            rows.append({"load_pct": pct, "power_good_ms": round(rails - 1.4, 1), "rails_ms": round(rails, 1)})
        return rows

    def transients(self) -> list[Record]:
        """Load steps on the three main rails."""
        rails = (("12v", 12, self.plan.rated_w * 0.95 / 12), ("5v", 5, 20.0), ("3v3", 3.3, 20.0))
        rows = []
        for rail, nominal, amps in rails:
            base = {"12v": self.plan.set_point_v, "5v": 5.03, "3v3": 3.31}[rail]
            step = 0.4 if rail == "12v" else 0.3
            dip = nominal * (0.008 + self.plan.droop * 0.9) * (1 + self.rng.gauss(0, 0.05))
            rows.append({
                "rail": rail, "from_a": round(amps * (0.5 - step / 2), 1), "to_a": round(amps * (0.5 + step / 2), 1),
                "lowest_v": round(base - dip, 3), "highest_v": round(base + dip * 0.7, 3),
                "recovery_ms": round(0.4 + 20 * self.plan.droop, 2),
            })
        return rows

    def excursions(self) -> list[Record]:
        """The excursions of ATX 3.x, where it is claimed."""
        if not self.plan.standard.startswith("atx_3"):
            return []
        large = self.plan.rated_w > 450 and self.plan.pcie_16
        peaks = ((200, 0.1, 0.05), (180, 1.0, 0.08), (160, 10.0, 0.125), (120, 100.0, 0.25)) if large else (
            (150, 0.1, 0.05), (145, 1.0, 0.08), (135, 10.0, 0.125), (110, 100.0, 0.25))
        rows = []
        for peak, duration, duty in peaks:
            base = 100 * math.sqrt((1 - duty * (peak / 100) ** 2) / (1 - duty))
            held = self.design.holds >= 1.05
            lowest = self.plan.set_point_v - 12 * self.plan.droop * (1 + 1.4 * (peak / 100 - 1)) - 0.05
            row: Record = {"peak_pct": peak, "duration_ms": duration, "base_pct": round(base, 1), "outcome": "held" if held else "shut_down"}
            if held:
                row["lowest_12v_v"] = round(lowest + self.rng.gauss(0, 0.01), 2)
            rows.append(row)
        return rows

    def standby(self) -> list[Record]:
        """The standby rail alone."""
        rows = []
        design = self.design
        for amps in (0.0, 0.045, 0.1, 0.55, 1.5):
            out = 5.06 * amps
            into = design.standby_w + out / design.standby_share + 0.02 * amps + (0.03 if self.mains == 230 else 0.0)
            rows.append({"current_5vsb_a": amps, "delivered_power_w": round(out, 3), "input_power_w": round(into * (1 + self.rng.gauss(0, 0.01)), 3)})
        return rows


def session(plan: Plan, *, mains: int, day: str, sample: str, rng: random.Random) -> Record:
    """A whole session record."""
    specimen = Specimen(plan, mains, rng)
    record: Record = {
        "format": 1, "date": day,
        "sample": {"id": sample, "obtained": plan.obtained if sample == "a" else "bought", "hardware_revision": plan.revision,
                   "from_whom": "the maker" if plan.obtained != "bought" and sample == "a" else "a shop, anonymously"},
        "tested_by": rng.choice(("Maren Holloway", "Idris Penhale")),
        "instruments": ["load", "analyser", "scope", "sound-meter", "thermometer", "tachometer"],
        "mains": {"voltage_v": mains + round(rng.gauss(0, 0.2), 1), "frequency_hz": 50 if mains == 230 else 60},
        "ambient_c": round(23.5 + rng.gauss(0, 0.8), 1),
        "load_points": specimen.load_points(),
    }
    if mains == 230:
        record["noise_sweep"] = {"distance_m": 1.0, "points": list(specimen.noise_points())}
    record["protections"] = protections(plan, specimen.design, rng)
    design = specimen.design
    record["maximum_power"] = {
        "sustained_w": round(plan.rated_w * design.holds), "held_minutes": 10, "shut_down_w": round(plan.rated_w * design.opp),
    }
    record["hold_up"] = specimen.hold_up()
    if plan.spare_sessions:
        record |= _spare(specimen)
    if plan.remarks:
        record["remarks"] = plan.remarks
    return record | (_with_spare_tachometer(record, plan.stand_in) if plan.stand_in and mains == 230 else {})


def _with_spare_tachometer(record: Record, reason: str) -> Record:
    """What changes when the spare tachometer stood in: the list of instruments, and what the editor accepts of it."""
    instruments = ["spare-tachometer" if name == "tachometer" else name for name in record["instruments"]]
    field = f"instruments[{instruments.index('spare-tachometer')}]"
    return {"instruments": instruments, "accepted": [{"rule": "calibration", "field": field, "reason": reason}]}


def _spare(specimen: Specimen) -> Record:
    plan, rng = specimen.plan, specimen.rng
    amps = rail_amps(plan)
    volts = {"voltage_12v_v": plan.set_point_v - 12 * plan.droop, "voltage_5v_v": 4.99, "voltage_3v3_v": 3.285}
    lopsided = {k: round(v - (0.02 + plan.droop) * v * 0.4, 3) for k, v in volts.items()}
    record: Record = {
        "cross_loads": [
            {"name": "minor_rails_full", "current_12v_a": 1.0, "current_5v_a": 12.0, "current_3v3_a": 12.0,
             "voltage_12v_v": round(plan.set_point_v + 12 * plan.droop * 0.6, 3), "voltage_5v_v": lopsided["voltage_5v_v"], "voltage_3v3_v": lopsided["voltage_3v3_v"]},
            {"name": "12v_full", "current_12v_a": amps["12v"], "current_5v_a": 0.5, "current_3v3_a": 0.5,
             "voltage_12v_v": round(volts["voltage_12v_v"] - 12 * plan.droop * 0.3, 3), "voltage_5v_v": 5.06, "voltage_3v3_v": 3.335},
        ],
        "line_steps": [
            {"mains_voltage_v": v, **{k: round(x + rng.gauss(0, 0.003), 3) for k, x in volts.items()}} for v in (90, 264)
        ],
        "timing": {"power_on_t1_ms": round(60 + 60 * rng.random()), "rise_t2_ms": round(4 + 8 * rng.random(), 1),
                   "power_good_delay_t3_ms": round(115 + 60 * rng.random()), "power_good_rise_t4_ms": round(0.2 + rng.random(), 2)},
        "transients": specimen.transients(),
        "inrush": [{"peak_a": round(specimen.design.inrush_a * (specimen.mains / 230) ** 0.8 * (plan.rated_w / 850) ** 0.3 + rng.gauss(0, 1), 1), "start": "cold"}],
        "standby": specimen.standby(),
    }
    if not specimen.design.reaches(1.0):
        record["cross_loads"] = record["cross_loads"][:1]
        del record["line_steps"]
    if plan.fan_starts and specimen.mains == 230:
        starts = plan.fan_starts * plan.rated_w
        record["fan_run"] = {"starts_w": round(starts * 1.02), "stops_w": round(starts * 0.84)}
    excursions = specimen.excursions()
    return record | ({"excursions": excursions} if excursions else {})
