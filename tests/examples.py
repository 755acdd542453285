"""How many examples the damage tests try: a few each time, ten thousand in a long run."""

import os

LONG_RUN = 10_000


def examples(usual: int) -> int:
    """``usual`` examples, or ten thousand where ``sh tests/run --long`` asked for them."""
    return LONG_RUN if os.environ.get("GUIDEGEN_LONG") else usual
