"""What an editor lets stand although a sense check objects."""

from guidegen.records.kinds import Name, Text, record


@record
class Accepted:
    """A finding of the sense checks that the editor looked into and lets stand."""

    rule: Name
    """The rule that spoke."""
    field: Text
    """The field it spoke of; of a price ``<region> <date> <shop>``."""
    reason: Text
    """Why it stands; printed on the unit's page."""
