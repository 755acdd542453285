"""The content folder turned into records. The only room that reads ``content/`` and knows YAML and CSV.

``read_library`` gives everything or every fault; ``locate`` finds the line of a field; ``schema`` describes a record kind.
"""

from guidegen.sources.library import KINDS, read_library, schema
from guidegen.sources.placing import locate

__all__ = ["KINDS", "locate", "read_library", "schema"]
