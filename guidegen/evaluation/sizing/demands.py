"""What a computer asks for beside watts: plugs, room in the case, the circuit behind the outlet, a supply for outages."""

from dataclasses import dataclass

from guidegen.evaluation.sizing.builds import BuildLoad
from guidegen.evaluation.sizing.wording import NO_BREAK, listed, percent, percent_against, watts, with_unit
from guidegen.records import Region, Unit
from guidegen.records.unit import Connector

CONTINUOUS_SHARE = 0.8
"""Continuous load (three hours and more) counts at 125 % (NEC 210.19(A) and 210.20(A), second-hand)."""
UPS_SHARE = 0.8
"""Share of its rating to which an uninterruptible supply is loaded (common practice, no source)."""
ASSUMED_POWER_FACTOR = 0.9
"""Where none was measured: the least that the efficiency levels ask for (second-hand)."""
PLUG_KINDS: dict[str, tuple[tuple[Connector, ...], str]] = {
    "cpu_8": (("cpu_8",), "8-pin processor plug"),
    "pcie_8": (("pcie_8",), "8-pin graphics plug"),
    "pcie_16": (("pcie_16_12v_2x6", "pcie_16_12vhpwr"), "16-pin graphics plug"),
    "sata": (("sata",), "drive plug"),
}
"""Kinds of plug that are counted, with the connectors that serve and their name in a sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plugs:
    """How many plugs of each kind are needed."""

    cpu_8: int = 0
    """8-pin processor plugs."""
    pcie_8: int = 0
    """8-pin graphics plugs."""
    pcie_16: int = 0
    """16-pin graphics plugs."""
    sata: int = 0
    """Drive plugs."""

    def at_least(self, other: "Plugs") -> "Plugs":
        """The larger count of each kind."""
        return Plugs(**{kind: max(getattr(self, kind), getattr(other, kind)) for kind in PLUG_KINDS})

    def missing_from(self, unit: Unit) -> tuple[str, ...]:
        """What a unit lacks, in words; empty where it has them all."""
        lacking = []
        for kind, (connectors, name) in PLUG_KINDS.items():
            needed, there = getattr(self, kind), unit.connectors(*connectors)
            if there < needed:
                lacking.append(f"{needed - there} more {name}{'s' if needed - there > 1 else ''}")
        return tuple(lacking)

    @property
    def words(self) -> str:
        """The needs as a sentence has them; empty where there are none."""
        needed = ((getattr(self, kind), name) for kind, (_, name) in PLUG_KINDS.items())
        return listed(tuple(f"{count} {name}{'s' if count > 1 else ''}" for count, name in needed if count))


def plugs_of(build: BuildLoad) -> Plugs:
    """The plugs that the parts of a build need."""
    return Plugs(**{kind: build.plugs(kind) for kind in PLUG_KINDS})


def circuit_limit_w(mains_v: float, breaker_a: float) -> float:
    """What a load of three hours and more may draw from a circuit, W: 80 % of the breaker, since continuous load counts
    at 125 % (NEC 210.19(A) and 210.20(A), second-hand; local codes decide).

    >>> circuit_limit_w(120.0, 15.0), circuit_limit_w(120.0, 20.0)
    (1440.0, 1920.0)
    """
    return mains_v * breaker_a * CONTINUOUS_SHARE


@dataclass(frozen=True, slots=True, kw_only=True)
class CircuitDemand:
    """The computer on its household circuit."""

    wall_w: float
    """What it takes from the wall at full load, W."""
    limit_w: float
    """What the circuit carries for hours, W."""
    sentence: str
    """Both, in words."""

    @property
    def share(self) -> float:
        """Share of the limit that the computer alone takes."""
        return self.wall_w / self.limit_w

    @property
    def fits(self) -> bool:
        """Whether the computer alone stays within the limit."""
        return self.wall_w <= self.limit_w


def circuit_demand(wall_w: float, region: Region, *, mains_v: float | None = None) -> CircuitDemand:
    """The computer against the ordinary circuit of a region; ``mains_v`` where it differs from the region's."""
    volts = mains_v or region.mains_voltage_v
    limit = circuit_limit_w(volts, region.circuit_a)
    circuit = f"A circuit of {with_unit(region.circuit_a, 'A')} at {with_unit(volts, 'V')} carries {watts(limit)} for hours on end"
    if wall_w > limit:
        said = (
            f"{circuit}: less than the {watts(wall_w)} that this computer takes. Do not run it there; "
            "ask a qualified electrician."
        )
    else:
        said = (
            f"{circuit}; this computer takes {percent_against(wall_w / limit, 1.0)} of that, and screens, heaters and "
            "everything else on the circuit share the rest. Local codes decide; ask a qualified electrician if in doubt."
        )
    return CircuitDemand(wall_w=wall_w, limit_w=limit, sentence=said)


@dataclass(frozen=True, slots=True, kw_only=True)
class UpsDemand:
    """What an uninterruptible supply must carry."""

    rated_w: float
    """Its rating in W, at least."""
    rated_va: float
    """Its rating in VA, at least."""
    sentence: str
    """Both, in words."""


def ups_demand(wall_w: float, *, power_factor: float = ASSUMED_POWER_FACTOR, hold_up_ms: float | None = None) -> UpsDemand:
    """The uninterruptible supply for a computer alone: W and VA = W/PF, loaded to 80 %; ``hold_up_ms`` is the time that
    the power supply bridges at full load.
    """
    rated_w, rated_va = wall_w / UPS_SHARE, wall_w / power_factor / UPS_SHARE
    said = (
        f"An uninterruptible supply for the computer alone: at least {watts(rated_w)} and {with_unit(rated_va, 'VA')}, so "
        f"that it is loaded to {percent(UPS_SHARE)}; one with a sine wave, since stepped waves can upset a supply with "
        "power-factor correction."
    )
    if hold_up_ms is not None:
        said += (
            f" It must switch over within {with_unit(hold_up_ms, 'ms', 1)}, the hold-up time measured at full rating; "
            f"line-interactive models take 3 to 6{NO_BREAK}ms."
        )
    return UpsDemand(rated_w=rated_w, rated_va=rated_va, sentence=said)


def rides_through(hold_up_ms: float, transfer_ms: float) -> bool:
    """Whether a computer runs on while an uninterruptible supply switches over: hold-up (T5) longer than the transfer.

    >>> rides_through(11.0, 10.0), rides_through(11.0, 12.0)
    (True, False)
    """
    return transfer_ms < hold_up_ms


def amps_per_pin(power_w: float, pins: int = 6, voltage_v: float = 12.0) -> float:
    """Current in each of the supplying pins of a plug, A, shared evenly.

    >>> round(amps_per_pin(600.0), 2)
    8.33
    """
    return power_w / voltage_v / pins
