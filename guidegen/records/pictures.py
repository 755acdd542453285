"""Pictures beside the records: photographs and drawings that pages show."""

from guidegen.records.kinds import Count, Text, record


@record
class UnitPicture:
    """A picture of a unit."""

    file: Text
    """File below the content folder, such as ``pictures/halmer-quill-850.png``."""
    words: Text
    """What it shows, for those who can't see it and as its caption."""


@record
class Picture:
    """A file of ``pictures/``, found to be what its name says."""

    file: Text
    """File below the content folder; also its address on the site."""
    content: bytes
    """Its bytes."""
    width: Count
    """Width, pixels."""
    height: Count
    """Height, pixels."""
