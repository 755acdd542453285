"""What a unit gives to pages that show every unit: nothing but what its own sessions and the policy say."""

from dataclasses import dataclass
from sys import intern
from typing import Any

from guidegen.evaluation import Answers, RatingOnOffer, UnitResult, answers_of, offer_of
from guidegen.presentation.values import Value, unit_values
from guidegen.presentation.worksheet import unit_in_worksheet
from guidegen.records import PolicyRecord

Limit = tuple[str, str, str, str]
"""Key of a verdict, its title, the limit in words, and the document."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitShare:
    """What one unit gives."""

    answers: Answers
    """What it has an answer to."""
    titles: tuple[tuple[str, str], ...]
    """Keys of its findings with their titles."""
    limits: tuple[Limit, ...]
    """Limits that it was held against."""
    used: tuple[str, ...]
    """Files of the sessions that the numbers rest on that are compared."""
    offer: RatingOnOffer
    """Its rating, and what it can do."""
    values: tuple[Value, ...]
    """What prose may name of it."""
    worksheet: dict[str, Any]
    """What the worksheet computes with."""


def unit_share(result: UnitResult, policy: PolicyRecord) -> UnitShare:
    """What a unit gives."""
    return UnitShare(
        answers=answers_of((result,)), titles=tuple((one.key, one.title) for one in result.findings),
        limits=tuple((one.key, one.title, intern(one.limit_text), intern(one.document)) for one in result.verdicts if one.limit_text),
        used=tuple(session.file for session in result.used), offer=offer_of(result), values=tuple(unit_values(result)),
        worksheet=unit_in_worksheet(result, policy),
    )
