"""One unit at a reader's own loads: efficiency, heat, noise and ripple between the measured points."""

from dataclasses import dataclass

from guidegen.evaluation.curves import efficiency_at, value_at
from guidegen.evaluation.findings import Curve, UnitResult
from guidegen.evaluation.load_shares import ripple_limits_mv
from guidegen.evaluation.running_costs import UseLoad

BETWEEN_MAINS_V = 160.0
"""Below this mains voltage a session at 115 V is the nearer one, V."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchAt:
    """What the bench measured at the mains nearest to a reader's."""

    mains_v: int
    """115 or 230 V."""
    curves: tuple[Curve, ...]
    """Courses over load."""

    def curve(self, key: str) -> Curve | None:
        """The curve of this key, or nothing."""
        return next((curve for curve in self.curves if curve.key == key), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitAtLoad:
    """A unit at one load; nothing where the load lies beyond the measured ones."""

    use: str
    """Which load."""
    delivered_w: float
    """Delivered power, W."""
    share: float
    """The load as a share of the rating."""
    efficiency_pct: float | None
    """Efficiency, %."""
    wall_w: float | None
    """Power from the wall, W."""
    heat_w: float | None
    """Power lost, W."""
    noise_dba: float | None
    """Noise at 1 m, dB(A)."""
    noise_bound: bool
    """Whether that is only an upper bound."""
    ripple_share: float | None
    """Ripple as a share of its limit, on the rail that is nearest to it."""


def nearest_mains(mains_v: float) -> int:
    """115 or 230, whichever the mains is nearer to.

    >>> nearest_mains(100.0), nearest_mains(240.0)
    (115, 230)
    """
    return 115 if mains_v < BETWEEN_MAINS_V else 230


def bench_at(result: UnitResult, mains_v: float) -> BenchAt:
    """The newest curves of the compared hardware revision at the mains nearest to the reader's; where there are none, the
    compared ones.
    """
    wanted = nearest_mains(mains_v)
    compared = result.mains_v
    if compared != wanted:
        for session, measures in sorted(result.by_session, key=lambda one: one[0].record.date, reverse=True):
            curves = tuple(curve for measure in measures for curve in measure.curves)
            same = session.record.sample.hardware_revision == result.revision
            if same and session.mains_volts == wanted and any(curve.key == "loss" for curve in curves):
                return BenchAt(mains_v=wanted, curves=curves)
    return BenchAt(mains_v=compared, curves=result.curves)


def unit_at(bench: BenchAt, load: UseLoad, *, rated_w: float) -> UnitAtLoad:
    """A unit at one load."""
    loss, noise = bench.curve("loss"), bench.curve("acoustic_noise")
    efficiency = efficiency_at(loss, load.delivered_w) if loss else None
    level = value_at(noise, load.delivered_w) if noise else None
    wall = load.delivered_w * 100.0 / efficiency if efficiency else None
    return UnitAtLoad(
        use=load.use, delivered_w=load.delivered_w, share=load.delivered_w / rated_w, efficiency_pct=efficiency,
        wall_w=wall, heat_w=wall - load.delivered_w if wall else None, noise_dba=level.value if level else None,
        noise_bound=bool(noise and noise.upper_bound(load.delivered_w)),
        ripple_share=_ripple_share(bench, load.delivered_w),
    )


def _ripple_share(bench: BenchAt, load_w: float) -> float | None:
    shares = []
    for rail, limit in ripple_limits_mv().items():
        curve = bench.curve(f"ripple.{rail}")
        found = value_at(curve, load_w) if curve else None
        if found is not None:
            shares.append(found.value / limit)
    return max(shares, default=None)
