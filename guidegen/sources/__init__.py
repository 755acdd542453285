"""The content folder turned into records. The only room that reads content/ and knows YAML and CSV."""

from guidegen.sources.library import KINDS, locate, read_library, schema

__all__ = ["KINDS", "locate", "read_library", "schema"]
