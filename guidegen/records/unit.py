"""A power supply as its box, its data sheet and a pair of callipers describe it."""

from dataclasses import field
from typing import Annotated, Literal

from annotated_types import MinLen

from guidegen.records.accepted import Accepted
from guidegen.records.kinds import (
    Badge,
    Count,
    Day,
    Format,
    MainsClass,
    Name,
    Number,
    Positive,
    Rail,
    Text,
    Whole,
    YesNo,
    record,
)
from guidegen.records.pictures import UnitPicture

Connector = Literal[
    "main_24", "cpu_8", "cpu_4", "pcie_8", "pcie_6", "pcie_16_12v_2x6", "pcie_16_12vhpwr", "sata", "peripheral_4"
]
"""A plug: ``cpu_8`` may split into 4+4, ``pcie_8`` into 6+2; ``pcie_16_…`` names the standard of the 16-pin plug."""
Protection = Literal[
    "ocp_12v", "ocp_5v", "ocp_3v3", "opp", "ovp_12v", "ovp_5v", "ovp_3v3", "uvp_12v", "uvp_5v", "uvp_3v3",
    "scp", "otp", "no_load", "surge",
]
"""A protection in the words of the ATX design guides, with its rail where it has one."""
ClaimedProtection = Literal["ocp", "opp", "ovp", "uvp", "scp", "otp", "surge", "no_load"]
"""A protection as a box claims it: without a rail."""


@record
class RailRating:
    """What the label allows on one rail."""

    rail: Rail
    """The rail."""
    rated_current_a: Positive
    """Rated current, A."""


@record
class Size:
    """Outer size, mm."""

    width_mm: Positive
    """Width, mm."""
    height_mm: Positive
    """Height, mm."""
    depth_mm: Positive
    """Depth without cables, mm."""


@record
class Claims:
    """What the box says; judged against the bench, never repeated as fact."""

    badge: Badge
    """Efficiency level on the box."""
    badge_mains: MainsClass | None = None
    """Which published table the badge belongs to."""
    standard: Literal["atx12v_2.4", "atx_2.52", "atx_3.0", "atx_3.1"]
    """Revision of the design guide that the maker claims."""
    protections: tuple[ClaimedProtection, ...]
    """Protections that the box lists."""
    noise_dba: Positive | None = None
    """Noise level that the maker prints, dB(A)."""
    hold_up_ms: Positive | None = None
    """Hold-up time that the maker prints, ms."""


@record
class BulkCapacitors:
    """The capacitors that carry the supply over a gap in the mains."""

    maker_class: Literal["first_line", "second_line", "unnamed"]
    """How the lab rates the capacitor's maker; no names."""
    count: Count
    """How many stand in parallel."""
    capacitance_uf: Positive
    """Capacitance of each, µF."""
    voltage_v: Positive
    """Voltage rating, V."""
    temperature_c: Positive
    """Temperature rating, °C."""


@record
class OutputCapacitors:
    """The capacitors behind the transformer."""

    maker_class: Literal["first_line", "second_line", "unnamed"]
    """How the lab rates the capacitor's maker; no names."""
    temperature_c: Positive
    """Temperature rating, °C."""
    polymer: YesNo
    """Whether the fast filtering is done by polymer capacitors."""


@record
class Construction:
    """What the lab saw inside. Opening a supply is for people with the training and the gear."""

    primary: Literal["half_bridge_llc", "full_bridge_llc", "active_clamp_forward", "double_forward"]
    """Topology of the primary side."""
    secondary: Literal["synchronous_dc_dc", "synchronous_group", "passive_group"]
    """How the outputs are rectified and the minor rails made."""
    bulk_capacitors: BulkCapacitors
    """Bulk capacitors."""
    output_capacitors: OutputCapacitors
    """Output capacitors."""
    inrush_limiter: Literal["ntc_relay", "ntc", "none"]
    """How the charging current is limited at switch-on."""
    remarks: Text | None = None
    """What else a reader should know about the build."""


@record
class Fan:
    """The fan."""

    size_mm: Positive
    """Frame size, mm."""
    bearing: Literal["fluid_dynamic", "rifle", "sleeve", "double_ball"]
    """Bearing."""
    semi_passive: YesNo
    """Whether the fan may stand still at low load."""


@record
class Cable:
    """A kind of cable that comes in the box."""

    connector: Connector
    """The plug at the far end."""
    count: Count
    """How many such plugs in all."""
    cables: Count
    """On how many cables they sit."""
    length_mm: Positive
    """Length to the first plug, mm."""
    fixed: YesNo
    """``true`` where the cable can't be unplugged from the supply."""


@record
class Withdrawn:
    """Why a unit is no longer part of the guide; its page stays and says so."""

    on: Day
    """Since when."""
    reason: Text
    """Why."""


@record
class UnitRecord:
    """``units/<unit>/unit.yaml``."""

    format: Format
    """Version of the record format: 1."""
    maker: Text
    """Maker as on the box."""
    model: Text
    """Model as on the box."""
    revision: Text
    """Hardware revision as on the label."""
    predecessor: Name | None = None
    """Unit that this one replaces."""
    platform_maker: Text
    """Who builds it."""
    released: Day
    """First sale."""
    rated_power_w: Positive
    """Total rated power, W."""
    rails: Annotated[tuple[RailRating, ...], MinLen(3)]
    """Ratings of the rails."""
    minor_rails_power_w: Positive
    """What +5 V and +3.3 V may give together, W."""
    form_factor: Literal["ATX", "SFX", "SFX-L", "TFX"]
    """Form factor."""
    size: Size
    """Outer size."""
    claims: Claims
    """What the box says."""
    construction: Construction
    """What is inside."""
    fan: Fan
    """The fan."""
    cables: Annotated[tuple[Cable, ...], MinLen(1)]
    """What comes in the box."""
    warranty_years: Number
    """Warranty, years."""
    editor_note: Text | None = None
    """What the editor wants to say beside the computed verdict; numbers bound to the data with ``{{ … }}``."""
    pictures: tuple[UnitPicture, ...] = ()
    """Pictures of the unit."""
    withdrawn: Withdrawn | None = None
    """Set when the unit leaves the guide."""
    accepted: tuple[Accepted, ...] = ()
    """Findings of the sense checks on this record, or on its prices, that may stand."""


@record
class Unit:
    """A unit record under its identifier."""

    id: str
    """Name of the folder below ``units/``."""
    file: str
    """File below the content folder."""
    record: UnitRecord
    """What the file says."""
    digest: str = field(default="", compare=False, repr=False)
    """SHA-256 of the file's text; empty where the record doesn't come from a file as it stands."""

    def __hash__(self) -> int:
        """Short, since records are long and looked up again and again."""
        return hash((self.id, self.record.rated_power_w))

    @property
    def name(self) -> str:
        """Maker and model, as said in a sentence."""
        return f"{self.record.maker} {self.record.model}"

    def rated_current(self, rail: Rail) -> float | None:
        """Rated current of a rail, A, or nothing where the label has none."""
        return next((r.rated_current_a for r in self.record.rails if r.rail == rail), None)

    def connectors(self, *kinds: Connector) -> Whole:
        """How many plugs of these kinds come in the box."""
        return sum(cable.count for cable in self.record.cables if cable.connector in kinds)
