"""What people wrote down: frozen, typed records. This room computes nothing and touches no file."""

from guidegen.records.accepted import Accepted
from guidegen.records.corrections import CORRECTIONS, Correction
from guidegen.records.editions import (
    PAGE,
    RECORDS,
    SITE,
    SUMS,
    EditionRecord,
    FrozenBracket,
    FrozenEdition,
    FrozenUnit,
    ListedFile,
)
from guidegen.records.fields import inside, record_at, steps_of, value_at, with_record, with_value
from guidegen.records.guide import (
    Bracket,
    Edition,
    GuideRecord,
    Instrument,
    InstrumentQuantity,
    Moved,
    Person,
    ProfileUse,
    Publisher,
    ReaderProfile,
    Reading,
    Region,
)
from guidegen.records.library import GLOSSARY, Library, Manuscript, Original, TermForms
from guidegen.records.limit import Limit
from guidegen.records.logs import NEEDED, LogColumn, LogField, LogMapping, LogReadings, SessionDefaults, TimeColumn
from guidegen.records.parts import Build, BuildRecord, PartClass, PartsRecord
from guidegen.records.pictures import Picture, UnitPicture
from guidegen.records.policy import (
    Anchor,
    ChoiceRule,
    Criterion,
    Gate,
    LocalAnchors,
    NoiseRules,
    Override,
    Part,
    PolicyRecord,
    PriceRules,
    ProtectionBand,
    SizingRules,
    Tier,
)
from guidegen.records.prices import PriceList, PriceRow
from guidegen.records.session import (
    CrossLoad,
    Excursion,
    FanRun,
    HoldUp,
    Inrush,
    LineStep,
    LoadPoint,
    Mains,
    MaximumPower,
    NoisePoint,
    NoiseSweep,
    ProtectionTest,
    Provenance,
    Sample,
    Session,
    SessionRecord,
    Standby,
    Timing,
    Transient,
)
from guidegen.records.unit import (
    BulkCapacitors,
    Cable,
    Claims,
    Construction,
    Fan,
    OutputCapacitors,
    RailRating,
    Size,
    Unit,
    UnitRecord,
    Withdrawn,
)

__all__ = [
    "CORRECTIONS", "GLOSSARY", "NEEDED", "PAGE", "RECORDS", "SITE", "SUMS", "Accepted", "Anchor", "Bracket", "Build",
    "BuildRecord", "BulkCapacitors", "Cable", "ChoiceRule", "Claims", "Construction", "Correction", "Criterion",
    "CrossLoad", "Edition", "EditionRecord", "Excursion", "Fan", "FanRun", "FrozenBracket", "FrozenEdition",
    "FrozenUnit", "Gate", "GuideRecord", "HoldUp", "Inrush", "Instrument", "InstrumentQuantity", "Library", "Limit", "LineStep", "ListedFile",
    "LoadPoint", "LocalAnchors", "LogColumn", "LogField", "LogMapping", "LogReadings", "Mains", "Manuscript",
    "MaximumPower", "Moved", "NoisePoint", "NoiseRules", "NoiseSweep", "Original", "OutputCapacitors", "Override",
    "Part", "PartClass", "PartsRecord", "Person", "Picture", "PolicyRecord", "PriceList", "PriceRow", "PriceRules",
    "ProfileUse", "ProtectionBand", "ProtectionTest", "Provenance", "Publisher", "RailRating", "ReaderProfile",
    "Reading", "Region", "Sample", "Session", "SessionDefaults", "SessionRecord", "Size", "SizingRules", "Standby",
    "TermForms", "Tier", "TimeColumn", "Timing", "Transient", "Unit", "UnitPicture", "UnitRecord", "Withdrawn",
    "inside", "record_at", "steps_of", "value_at", "with_record", "with_value",
]
