"""What a sheet writes in the language of the interface, and how it marks what is in the records' language."""

from collections.abc import Callable
from typing import Protocol

from markupsafe import Markup

from guidegen.presentation.sheets import Site


class Wordable(Protocol):
    """A piece whose words may be a text of the interface."""

    @property
    def worded(self) -> bool:
        """Whether they are."""


def wording_of(site: Site) -> dict[str, Callable[..., str] | Markup]:
    """What sheets find by name.

    ``{{ say("bracket.ranked", count=3, bracket="850") }}`` is a text of the catalogue, ``{{ texts_of("search")|linked_data }}``
    the texts of a script, ``<p{{ lang }}>`` marks an element as being in the records' language where that is another than
    the interface's, ``<p{{ own }}>`` goes back to the interface's within such an element, and ``<p{{ lang_of(link) }}>``
    marks the records' language unless the words of the piece are a text of the interface.
    """
    same = site.records_language == site.language
    lang, own = (Markup("") if same else Markup(' lang="{}"').format(one) for one in (site.records_language, site.language))

    def lang_of(piece: Wordable) -> Markup:
        return Markup("") if piece.worded else lang

    return {"say": site.words.say, "texts_of": site.words.as_json, "lang": lang, "own": own, "lang_of": lang_of}
