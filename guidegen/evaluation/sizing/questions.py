"""What a reader asks, and the load that follows from it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from guidegen.errors import RequestError, nearest_name
from guidegen.evaluation.assessment import Assessment
from guidegen.evaluation.running_costs import UseLoad, use_loads
from guidegen.evaluation.sizing.builds import BuildLoad, build_load, least_idle_w
from guidegen.evaluation.sizing.demands import plugs_of
from guidegen.evaluation.sizing.fitted import bench_at
from guidegen.evaluation.sizing.fitting import Search, Wishes
from guidegen.evaluation.sizing.matrix import load_of
from guidegen.evaluation.sizing.rating import Load
from guidegen.evaluation.sizing.wall import checked_power, delivered_from_wall, delivered_through
from guidegen.evaluation.sizing.wording import percent, watts, with_unit
from guidegen.records import ReaderProfile, Region

MOST_HEADROOM_PCT = 200.0
"""More headroom than this is a slip of the pen, %."""
Named = TypeVar("Named", Region, ReaderProfile)


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What a reader asks: exactly one of parts, delivered watts and wall watts."""

    parts: Mapping[str, int] | None = None
    """Count by part class."""
    delivered_w: float | None = None
    """Delivered power at full load, W."""
    wall_w: float | None = None
    """Plug-meter reading at full load, W."""
    present_efficiency_pct: float | None = None
    """Efficiency of the supply behind the plug meter, %, where it is known."""
    present_unit: str = ""
    """Unit behind the plug meter, where it is one of the guide's."""
    mains_v: float | None = None
    """Mains voltage, V, where it differs from the region's."""
    region: str = ""
    """Region; the home region where empty."""
    profile: str = ""
    """Reader profile; the first where empty."""
    wishes: Wishes = field(default_factory=Wishes)
    """Wishes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A question with its names looked up and its sums done."""

    region: Region
    """The region."""
    profile: ReaderProfile
    """The profile."""
    build: BuildLoad | None
    """The parts, where they were named."""
    search: Search
    """What to look for."""
    steps: tuple[str, ...]
    """The sums up to the full load."""


def ask(question: Question, assessment: Assessment) -> Asked:
    """The question made ready; ``RequestError`` for what can't be answered."""
    guide, parts = assessment.library.guide, assessment.library.parts
    region = _named(guide.regions, question.region or guide.home_region, "region")
    profile = _named(guide.profiles, question.profile or guide.profiles[0].id, "reader profile")
    mains_v = _checked_mains(question.mains_v, region)
    wishes = _checked_wishes(question.wishes)
    if sum(given is not None for given in (question.parts, question.delivered_w, question.wall_w)) != 1:
        raise RequestError("expected exactly one of parts, delivered watts and wall watts")
    if question.parts is not None:
        build = build_load(parts, question.parts)
        load = load_of(build, headroom_pct=wishes.headroom_pct)
        checked_power(load.full_w, "full load")
        wishes = Wishes(
            headroom_pct=wishes.headroom_pct, depth_mm=wishes.depth_mm, budget=wishes.budget,
            plugs=wishes.plugs.at_least(plugs_of(build)),
        )
        return Asked(
            region=region, profile=profile, build=build, steps=build.steps(),
            search=_search(load, _uses(profile, load.full_w, build), mains_v=mains_v, wishes=wishes, build=build),
        )
    full_w, steps = _measured(question, assessment, mains_v)
    load = Load(full_w=full_w, rail_12v_w=full_w, headroom_pct=wishes.headroom_pct)
    return Asked(
        region=region, profile=profile, build=None, steps=steps,
        search=_search(load, _uses(profile, full_w, None), mains_v=mains_v, wishes=wishes, build=None),
    )


def _search(load: Load, uses: tuple[UseLoad, ...], *, mains_v: float, wishes: Wishes, build: BuildLoad | None) -> Search:
    minor_w = build.rail_watts("5v") + build.rail_watts("3v3") if build else 0.0
    return Search(load=load, uses=uses, minor_w=minor_w, mains_v=mains_v, wishes=wishes)


def _named(known: tuple[Named, ...], wanted: str, what: str) -> Named:
    found = next((one for one in known if one.id == wanted), None)
    if found is None:
        names = tuple(one.id for one in known)
        nearest = nearest_name(wanted, names)
        raise RequestError(f"no {what} {wanted}; " + (f"did you mean {nearest}?" if nearest else f"known: {', '.join(names)}"))
    return found


def _checked_mains(mains_v: float | None, region: Region) -> float:
    volts = region.mains_voltage_v if mains_v is None else mains_v
    if not 90 <= volts <= 264:
        raise RequestError(f"mains of {volts:g} V: expected 90 to 264 V, the range that supplies are built for")
    return volts


def _checked_wishes(wishes: Wishes) -> Wishes:
    if not 0 <= wishes.headroom_pct <= MOST_HEADROOM_PCT:
        raise RequestError(f"headroom of {wishes.headroom_pct:g} %: expected 0 to {MOST_HEADROOM_PCT:g} %")
    for value, name in ((wishes.depth_mm, "depth"), (wishes.budget, "budget")):
        if value is not None and not 0 < value < float("inf"):
            raise RequestError(f"{name} of {value:g}: expected more than 0")
    return wishes


def _measured(question: Question, assessment: Assessment, mains_v: float) -> tuple[float, tuple[str, ...]]:
    """Delivered power at full load with the sum that led to it."""
    if question.delivered_w is not None:
        full = checked_power(question.delivered_w, "delivered power")
        return full, (f"Delivered at full load, as given: {watts(full)}",)
    wall = checked_power(question.wall_w or 0.0, "plug-meter reading")
    if question.present_unit:
        full = _through_unit(question.present_unit, wall, assessment, mains_v)
        return full, (f"Plug meter {watts(wall)} × {with_unit(100.0 * full / wall, '%', 1)} measured on that unit = {watts(full)} delivered",)
    efficiency, how = question.present_efficiency_pct, "as given"
    if efficiency is None:
        efficiency, how = assessment.library.policy.sizing.assumed_efficiency_pct, "assumed"
    if not 50 <= efficiency < 100:
        raise RequestError(f"efficiency of {efficiency:g} %: expected 50 to 100 %")
    full = delivered_from_wall(wall, efficiency)
    least = least_idle_w(assessment.library.parts)
    if full < least:
        raise RequestError(
            f"plug-meter reading of {wall:g} W: expected the reading at full load; the smallest computer takes "
            f"{watts(least)} at rest"
        )
    return full, (f"Plug meter {watts(wall)} × {percent(efficiency / 100)} ({how}) = {watts(full)} delivered",)


def _through_unit(unit: str, wall_w: float, assessment: Assessment, mains_v: float) -> float:
    result = assessment.result(unit)
    if result is None:
        nearest = nearest_name(unit, assessment.results.names)
        raise RequestError(f"no unit {unit}" + (f"; did you mean {nearest}?" if nearest else ""))
    loss = bench_at(result, mains_v).curve("loss")
    full = delivered_through(wall_w, loss) if loss else None
    if full is None:
        raise RequestError(f"{wall_w:g} W at the plug lies beyond what was measured on {unit}")
    return full


def _uses(profile: ReaderProfile, full_w: float, build: BuildLoad | None) -> tuple[UseLoad, ...]:
    """The loads at which everything is shown: those of the profile, idle and work by the parts where they are named,
    and full load last.
    """
    known = {"idle": build.idle_w, "work": min(build.watts("typical"), full_w)} if build else {}
    uses = tuple(
        UseLoad(use=one.use, delivered_w=known.get(one.use, one.delivered_w), hours_per_day=one.hours_per_day)
        for one in use_loads(profile, full_w)
    )
    idle = known.get("idle")
    if idle is not None and all(one.use != "idle" for one in uses):
        uses = (UseLoad(use="idle", delivered_w=idle), *uses)
    return (*uses, UseLoad(use="full", delivered_w=full_w))
