"""How many examples the damage tests try: some hundred each time, twenty thousand in a long run."""

import os

LONG = bool(os.environ.get("GUIDEGEN_LONG"))
"""Whether ``sh tests/run --long`` asked for the long run."""
LONG_RUN = 20_000


def examples(usual: int, long: int = LONG_RUN) -> int:
    """``usual`` examples, or the number of the long run."""
    return long if LONG else usual
