"""How many watts: from parts or a plug meter to a rating that exists in the guide."""

from guidegen.evaluation.sizing.builds import BuildLine, BuildLoad, build_load
from guidegen.evaluation.sizing.circuits import circuit_limit_w
from guidegen.evaluation.sizing.rating import Recommendation, recommend
from guidegen.evaluation.sizing.wall import delivered_from_wall, wall_from_delivered

__all__ = [
    "BuildLine", "BuildLoad", "Recommendation", "build_load", "circuit_limit_w", "delivered_from_wall", "recommend",
    "wall_from_delivered",
]
