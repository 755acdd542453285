"""How many watts: from parts or a plug meter to a rating that exists in the guide."""

from guidegen.evaluation.sizing.builds import BuildLine, BuildLoad, build_load
from guidegen.evaluation.sizing.rating import Recommendation, recommend
