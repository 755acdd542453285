"""What stands out in a unit's facts, said in words that only fit those facts."""

from guidegen.evaluation import Candidate, UnitResult
from guidegen.presentation.remarks import electrical, everyday
from guidegen.presentation.remarks.remark import Remark, Topic

BENCH_REMARKS = (
    electrical.label,
    electrical.protections,
    electrical.ripple,
    electrical.voltage,
    electrical.badge,
    electrical.efficiency,
    electrical.hold_up,
    everyday.noise,
    everyday.noise_claim,
    everyday.size,
    everyday.cables,
    everyday.build,
)
"""The order in which facts are looked at; equal weights keep it."""


def remarks_on(one: Candidate) -> tuple[Remark, ...]:
    """All remarks on a unit in its region, the weightiest first."""
    return _by_weight((*bench_remarks(one.result), *everyday.price(one.prices, one.result.unit.record.rated_power_w)))


def bench_remarks(result: UnitResult) -> tuple[Remark, ...]:
    """The remarks that hold in every region, the weightiest first."""
    return _by_weight(tuple(remark for look in BENCH_REMARKS for remark in look(result)))


def _by_weight(remarks: tuple[Remark, ...]) -> tuple[Remark, ...]:
    return tuple(sorted(remarks, key=lambda remark: -remark.weight))


def pick(remarks: tuple[Remark, ...], *, good: bool, most: int, besides: tuple[Topic, ...] = ()) -> tuple[Remark, ...]:
    """The weightiest remarks of one kind, one a topic, leaving out the topics named."""
    seen: set[Topic] = set(besides)
    picked: list[Remark] = []
    for remark in remarks:
        if remark.good == good and remark.topic not in seen and remark.weight > 0 and len(picked) < most:
            picked.append(remark)
            seen.add(remark.topic)
    return tuple(picked)


__all__ = ["Remark", "Topic", "bench_remarks", "pick", "remarks_on"]
