"""What is decided about an invented unit before physics makes its numbers."""

from dataclasses import dataclass
from typing import Any, Literal

Record = dict[str, Any]
"""A record as plain mappings and lists, before it is written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """An invented power supply: its box, and how well it is made."""

    maker: str
    model: str
    rated_w: int
    revision: str = "1.0"
    released: str = "2024-09-01"
    predecessor: str | None = None
    platform_maker: str = "Lindmoor Works"
    form_factor: str = "ATX"
    depth_mm: int = 150
    warranty_years: int = 7
    badge: str = "gold"
    badge_mains: str | None = "230v_eu_internal"
    standard: str = "atx_3.1"
    efficiency_pct: tuple[float, float, float]
    """True efficiency at 20, 50 and 100 % load and 230 V, %."""
    light_gain: float = 0.52
    """How much of the constant loss a light-load mode saves."""
    ripple_12v_mv: float = 30.0
    """Ripple on 12 V at full load, mV."""
    ripple_minor_mv: float = 16.0
    """Ripple on 5 V and 3.3 V at full load, mV."""
    fan_starts: float = 0.0
    """Share of the rating below which the fan stands; 0: always turning."""
    loudest_dba: float = 34.0
    """Level at 110 % load and 1 m, dB(A)."""
    fan_bend: float = 1.6
    """How late the fan speeds up: 1 straight, above 1 later."""
    idle_rpm_share: float = 0.42
    """Speed just after the start as a share of the highest."""
    fan_mm: int = 120
    bearing: str = "fluid_dynamic"
    droop: float = 0.009
    """Share by which 12 V sags from idle to full load."""
    set_point_v: float = 12.10
    bulk: tuple[int, int, int] = (1, 470, 105)
    """Count, µF each, °C."""
    capacitors: Literal["first_line", "second_line", "unnamed"] = "first_line"
    output_c: int = 105
    primary: str = "half_bridge_llc"
    secondary: str = "synchronous_dc_dc"
    inrush: str = "ntc_relay"
    claimed_noise_dba: int | None = None
    claimed_protections: tuple[str, ...] = ("ocp", "opp", "ovp", "uvp", "scp", "otp")
    trip: float = 1.28
    """Where over-power protection is meant to act, as a multiple of the rating; specimens differ."""
    holds: float | None = None
    """Highest power held as a multiple of the rating, for a unit that falls short of its label."""
    missing: tuple[str, ...] = ()
    """Protections that do not act."""
    untested: tuple[tuple[str, str], ...] = ()
    """Protections that were not tested, with the reason."""
    drive_plugs: int = 8
    pcie_8: int = 3
    pcie_16: bool = True
    fixed_cables: bool = False
    price_eur: float | None = 100.0
    price_usd: float | None = 95.0
    sold: Literal["well", "scarce", "stale"] = "well"
    samples: int = 1
    obtained: Literal["bought", "loaned", "given"] = "bought"
    note: str | None = None
    remarks: str | None = None
    spare_sessions: bool = True
    """Whether the optional parts of a session were all done."""
    drawn: bool = False
    """Whether there is a drawing of the side with its sockets."""
    stand_in: str | None = None
    """Why the spare tachometer, out of calibration, was used at 230 V; or nothing."""

    @property
    def id(self) -> str:
        """Folder of the unit."""
        words = f"{self.maker} {self.model}".lower().replace("&", "and")
        return "-".join("".join(c if c.isalnum() else " " for c in words).split())
