"""Numbers in, results out: measures, verdicts, scores, rankings, sizing. Pure; touches no file and no clock."""

from guidegen.evaluation.assessment import Assessment, BracketAssessment, assess
from guidegen.evaluation.choices import Chosen, choose, price_front, price_of
from guidegen.evaluation.curves import efficiency_at, efficiency_course, value_at
from guidegen.evaluation.explanations import CriterionDifference, Difference, PartDifference, explain
from guidegen.evaluation.findings import (
    BadgeRow,
    BadgeVerdict,
    Bench,
    Check,
    Curve,
    CurvePoint,
    Finding,
    Measure,
    Outcome,
    UnitResult,
    Verdict,
)
from guidegen.evaluation.gates import GateVerdict, pass_gates
from guidegen.evaluation.load_shares import LoadShares, load_shares
from guidegen.evaluation.log_sessions import Sweep, Told, session_of
from guidegen.evaluation.logs import LogMean, Segment, divide
from guidegen.evaluation.measures.protections import TITLES as PROTECTION_TITLES
from guidegen.evaluation.prices import Offer, PriceView, price_finding, view_prices
from guidegen.evaluation.rankings import Candidate, Ranking, Standing, candidate, rank
from guidegen.evaluation.results import evaluate
from guidegen.evaluation.scores import CriterionScore, PartScore, Score, anchors_at, score_unit
from guidegen.evaluation.sense_checks import (
    RULES,
    AcceptedObjection,
    Objection,
    SenseFindings,
    SenseRecords,
    check_sense,
)
from guidegen.evaluation.sizing import (
    BuildLine,
    BuildLoad,
    Recommendation,
    build_load,
    circuit_limit_w,
    delivered_from_wall,
    recommend,
    wall_from_delivered,
)

__all__ = [
    "PROTECTION_TITLES",
    "RULES",
    "AcceptedObjection",
    "Assessment",
    "BadgeRow",
    "BadgeVerdict",
    "Bench",
    "BracketAssessment",
    "BuildLine",
    "BuildLoad",
    "Candidate",
    "Check",
    "Chosen",
    "CriterionDifference",
    "CriterionScore",
    "Curve",
    "CurvePoint",
    "Difference",
    "Finding",
    "GateVerdict",
    "LoadShares",
    "LogMean",
    "Measure",
    "Objection",
    "Offer",
    "Outcome",
    "PartDifference",
    "PartScore",
    "PriceView",
    "Ranking",
    "Recommendation",
    "Score",
    "Segment",
    "SenseFindings",
    "SenseRecords",
    "Standing",
    "Sweep",
    "Told",
    "UnitResult",
    "Verdict",
    "anchors_at",
    "assess",
    "build_load",
    "candidate",
    "check_sense",
    "choose",
    "circuit_limit_w",
    "delivered_from_wall",
    "divide",
    "efficiency_at",
    "efficiency_course",
    "evaluate",
    "explain",
    "load_shares",
    "pass_gates",
    "price_finding",
    "price_front",
    "price_of",
    "rank",
    "recommend",
    "score_unit",
    "session_of",
    "value_at",
    "view_prices",
    "wall_from_delivered",
]
