"""The load strip of a unit, told to the drawing."""

from guidegen.evaluation import UnitResult, load_shares, ripple_limits_mv
from guidegen.presentation.catalogues import Words
from guidegen.presentation.charts import LoadStrip, StripBand, large_strip_of, strip_legend, strip_of
from guidegen.presentation.formatting import with_unit
from guidegen.presentation.pieces import Strip
from guidegen.records import PolicyRecord


def unit_strip(result: UnitResult, policy: PolicyRecord, *, mark_w: float, large: bool = False) -> Strip:
    """The strip with a mark at a load in W; ``large`` for the unit's own page."""
    described = described_strip(result, policy, mark_w=mark_w)
    return large_strip_of(described) if large else strip_of(described)


def described_strip(result: UnitResult, policy: PolicyRecord, *, mark_w: float) -> LoadStrip:
    """What a strip shows, before it is drawn."""
    shares = load_shares(result, policy)
    return LoadStrip(
        id=f"strip-{result.unit.id}",
        name=result.unit.name,
        bands=(
            StripBand(title="Heat lost", shares=shares.heat),
            StripBand(title="Noise", shares=shares.noise),
            StripBand(title="Ripple", shares=shares.ripple),
        ),
        mark_pct=100 * mark_w / result.unit.record.rated_power_w,
        mark_words=f"usual {with_unit(mark_w, 'W', 0)}",
    )


def legend_words(words: Words, policy: PolicyRecord) -> str:
    """How to read the strip, with what 0 and 100 % of each band are, and the bars of the score beside it."""
    ripple = ripple_limits_mv()
    return " ".join((
        words.say(
            "strip.legend", floor=with_unit(policy.noise.floor_dba, "dB(A)", 0), limit=with_unit(policy.noise.limit_dba, "dB(A)", 0),
            ripple_12v=with_unit(ripple["12v"], "mV", 0), ripple_5v=with_unit(ripple["5v"], "mV", 0),
        ),
        words.say("strip.parts"),
    ))


def legend_strip() -> Strip:
    """The strip that explains the others."""
    return strip_legend()
