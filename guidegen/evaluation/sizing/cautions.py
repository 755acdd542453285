"""What every reader of a sizing answer should know before a screwdriver is picked up."""

from dataclasses import dataclass

PRACTICE = "Common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """One caution."""

    id: str
    """Short name."""
    text: str
    """What to do and why, in a sentence or two."""
    source: str
    """Document, or that there is none."""


CAUTIONS: tuple[Caution, ...] = (
    Caution(
        id="opening",
        text="Never open a power supply or push anything through its vents: its capacitors hold a dangerous charge long "
             "after it is unplugged. There is nothing inside for you to repair.",
        source="A textbook on computer repair (second-hand)",
    ),
    Caution(
        id="modular_cables",
        text="Use only the modular cables that came with this very unit. Plugs of another model may fit and still carry "
             "other voltages; that destroys boards and drives.",
        source="Support notes of makers and shops (second-hand)",
    ),
    Caution(
        id="plugs_differ",
        text="Processor plugs and graphics plugs are not interchangeable. If a plug asks for force, it is the wrong one.",
        source="336521 rev 2.0 (ATX 3.0) §2.2.1",
    ),
    Caution(
        id="fully_seated",
        text="Push every plug home until its latch holds and no gap is left, the 16-pin graphics plug above all, and do "
             "not bend its cable right at the plug: at 600 W it works near its rating, and a loose contact can burn.",
        source="336521 rev 2.0 (ATX 3.0) table 3-5: 8.33 of 9.2 A a pin (derived); lab reports (second-hand)",
    ),
    Caution(
        id="adapters",
        text="Do not make up missing plugs with adapters or splitters. One cable for each plug of the graphics card, or "
             "another supply.",
        source="A machine maker's electrical manual (second-hand)",
    ),
    Caution(
        id="extension_leads",
        text="One powerful computer on an extension lead at most, a lead rated for it, uncoiled, and never one lead "
             "behind another.",
        source=PRACTICE,
    ),
    Caution(
        id="circuit",
        text="Everything on a circuit shares its limit. For hours on end draw no more than 80 % of it; local codes decide, "
             "and a qualified electrician changes what is behind the wall plate.",
        source="NEC 210.19(A) and 210.20(A), continuous loads at 125 % (second-hand); local codes come first",
    ),
    Caution(
        id="earthing",
        text="Plug it into an earthed outlet and never defeat the earth pin; have an outlet that you doubt tested by a "
             "qualified electrician.",
        source="A textbook on computer repair (second-hand)",
    ),
    Caution(
        id="mains_selector",
        text="If the supply has a switch for the mains voltage, set it before you plug it in.",
        source="ATX12V design guide v2.0 §3.1",
    ),
)
"""The usual cautions, always all of them: who reads one answer may read no other page."""
