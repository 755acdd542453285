"""How many watts: from parts or a plug meter to a rating that exists in the guide, and the units that fit.

``advise`` answers one question whole; the rest are its parts.
"""

from guidegen.evaluation.sizing.advice import Advice, Judgement, LoadAdvice, advise, field_in, judgement_of
from guidegen.evaluation.sizing.builds import BuildLine, BuildLoad, absurd_examples, build_load, least_idle_w, most_of
from guidegen.evaluation.sizing.cautions import CAUTIONS, Caution
from guidegen.evaluation.sizing.demands import (
    PLUG_KINDS,
    CircuitDemand,
    Plugs,
    UpsDemand,
    amps_per_pin,
    circuit_demand,
    circuit_limit_w,
    plugs_of,
    rides_through,
    ups_demand,
)
from guidegen.evaluation.sizing.excursions import Excursions, Peak, allowed_pct, excursions_of, published, uncovered
from guidegen.evaluation.sizing.fitted import UnitAtLoad, bench_at, nearest_mains
from guidegen.evaluation.sizing.fitting import (
    Field,
    FitList,
    GiveUp,
    Search,
    UnitFit,
    Wishes,
    fit_units,
    offer_of,
    ratings_on_offer,
)
from guidegen.evaluation.sizing.matrix import Matrix, MatrixCell, load_of, sizing_matrix
from guidegen.evaluation.sizing.paying import UnitCost, UnitSaving
from guidegen.evaluation.sizing.questions import MOST_HEADROOM_PCT, Question
from guidegen.evaluation.sizing.rating import Load, RatingOnOffer, Recommendation, recommend, recommend_for
from guidegen.evaluation.sizing.reasons import Asking, rating_steps, reasons, rule_words
from guidegen.evaluation.sizing.wall import MOST_W, delivered_from_wall, delivered_through, lost_w, wall_from_delivered
from guidegen.evaluation.sizing.wording import ABSENCES

__all__ = [
    "ABSENCES",
    "CAUTIONS",
    "MOST_HEADROOM_PCT",
    "MOST_W",
    "PLUG_KINDS",
    "Advice",
    "Asking",
    "BuildLine",
    "BuildLoad",
    "Caution",
    "CircuitDemand",
    "Excursions",
    "Field",
    "FitList",
    "GiveUp",
    "Judgement",
    "Load",
    "LoadAdvice",
    "Matrix",
    "MatrixCell",
    "Peak",
    "Plugs",
    "Question",
    "RatingOnOffer",
    "Recommendation",
    "Search",
    "UnitAtLoad",
    "UnitCost",
    "UnitFit",
    "UnitSaving",
    "UpsDemand",
    "Wishes",
    "absurd_examples",
    "advise",
    "allowed_pct",
    "amps_per_pin",
    "bench_at",
    "build_load",
    "circuit_demand",
    "circuit_limit_w",
    "delivered_from_wall",
    "delivered_through",
    "excursions_of",
    "field_in",
    "fit_units",
    "judgement_of",
    "least_idle_w",
    "load_of",
    "lost_w",
    "most_of",
    "nearest_mains",
    "offer_of",
    "plugs_of",
    "published",
    "rating_steps",
    "ratings_on_offer",
    "reasons",
    "recommend",
    "recommend_for",
    "rides_through",
    "rule_words",
    "sizing_matrix",
    "uncovered",
    "ups_demand",
    "wall_from_delivered",
]
