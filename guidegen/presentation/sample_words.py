"""What the sessions table says of hardware revisions and mains: which sessions are compared, and what stands in for another."""

from guidegen.evaluation import UnitResult, mains_of
from guidegen.presentation.formatting import listed, with_unit
from guidegen.records import Session


def compared_words(session: Session, result: UnitResult) -> str:
    """Whether a session's numbers are compared, or why not."""
    if session.file in {one.file for one in result.used}:
        return f"yes, for want of {with_unit(result.mains_missed_v, 'V', 0)}" if result.mains_missed_v else "yes"
    if session.record.sample.hardware_revision != result.revision:
        return "no, other revision"
    if session.mains_volts != result.mains_v:
        return "badge only" if session.mains_volts == mains_of(result.badge.mains_class) else "no, other mains"
    return "no, older"


def other_revisions(result: UnitResult) -> str:
    """Which revision the numbers are of, where samples of another one were on the bench, too."""
    others = tuple(dict.fromkeys(s.record.sample.hardware_revision for s in result.sessions if s.record.sample.hardware_revision != result.revision))
    return (f" All numbers are of hardware revision {result.revision}; what was measured of revision {listed(others)} is kept in its sessions "
            "and counts for nothing here.") if others else ""


def other_mains(result: UnitResult) -> str:
    """That the numbers are of another mains than the guide's, where they are."""
    return (f" The guide compares at {with_unit(result.mains_missed_v, 'V', 0)}, where this unit was not measured: its numbers are "
            f"those at {with_unit(result.mains_v, 'V', 0)}.") if result.mains_missed_v else ""
