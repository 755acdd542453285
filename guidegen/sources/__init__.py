"""The content folder turned into records. The only room that reads ``content/`` and knows YAML and CSV.

``read_library`` gives everything or every fault, ``survey`` as much as can be read beside the faults; ``locate`` finds the line of a field; ``schema`` describes a record kind.
``sources.logs`` reads a bench's log by a mapping and is imported by itself, as it needs much that nothing else does; ``entry_of`` and ``store`` bring a new session into the content, ``price_entry`` and ``store_prices`` new prices; ``read_build`` reads one reader's computer. ``freezing`` keeps an edition, ``verified`` finds it unchanged.
"""

from guidegen.sources.beginning import begin
from guidegen.sources.builds import read_build
from guidegen.sources.draft import Survey
from guidegen.sources.editions import records_of, tampered, verified, youngest_records
from guidegen.sources.entering import Entry, entry_of, read_unit, store
from guidegen.sources.freezing import FreezeDraft, freezing, refuse_name
from guidegen.sources.library import KINDS, SHELVES, read_library, schema, survey
from guidegen.sources.mappings import name_of, read_mapping, read_protections
from guidegen.sources.originals import read_originals
from guidegen.sources.placing import locate, placed
from guidegen.sources.price_entering import PriceEntry, price_entry, store_prices

__all__ = [
    "KINDS", "SHELVES", "Entry", "FreezeDraft", "PriceEntry", "Survey", "begin", "entry_of", "freezing", "locate", "name_of",
    "placed", "price_entry", "read_build", "read_library", "read_mapping", "read_originals", "read_protections",
    "read_unit", "records_of", "refuse_name", "schema", "store", "store_prices", "survey", "tampered", "verified",
    "youngest_records",
]
