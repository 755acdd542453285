"""How to cite what the guide says: who, when, what, which edition, where."""

from guidegen.presentation.formatting import day, listed
from guidegen.records import GuideRecord


def citation(guide: GuideRecord, what: str, address: str) -> str:
    """The line that cites a page: people, year, title, edition with its day, publisher and address."""
    people = listed(tuple(person.name for person in guide.publisher.people))
    edition = f"Edition {guide.edition.name}, printing {guide.edition.printing}, {day(guide.edition.date)}"
    return (
        f"{people} ({guide.edition.date.year}): {guide.title}: {what}. {edition}. "
        f"{guide.publisher.name}, {guide.public_address}{address}"
    )
