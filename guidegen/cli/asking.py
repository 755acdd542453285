"""What commands ask the guide for by name."""

from guidegen.errors import RequestError, unknown
from guidegen.evaluation import Assessment, BracketAssessment


def brackets_asked_for(assessment: Assessment, bracket: str | None, region: str | None) -> tuple[BracketAssessment, ...]:
    """All brackets of a region, or one; of the home region where none is named. Unknown names are a ``RequestError``."""
    guide = assessment.library.guide
    regions = tuple(one.id for one in guide.regions)
    if region is not None and region not in regions:
        raise RequestError(unknown("region", region, regions))
    names = tuple(one.id for one in guide.brackets)
    if bracket is not None and bracket not in names:
        raise RequestError(unknown("bracket", bracket, names))
    return tuple(
        one for one in assessment.in_region(region or guide.home_region) if bracket in (None, one.ranking.bracket.id)
    )
