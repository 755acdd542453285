"""The glossary: each heading of its page is a term, linked where other pages first use it."""

from guidegen.presentation.addresses import page_address
from guidegen.presentation.pieces import Term
from guidegen.presentation.prose import headings
from guidegen.records import GLOSSARY, Manuscript


def terms_of(manuscripts: tuple[Manuscript, ...]) -> tuple[Term, ...]:
    """What the page ``words`` explains, with the forms that its head lists; a term without any is not linked."""
    page = next((manuscript for manuscript in manuscripts if manuscript.id == GLOSSARY), None)
    if page is None:
        return ()
    forms = {term.heading: term.written for term in page.terms}
    terms = (
        Term(address=f"{page_address(page)}#{anchor}", written=forms.get(words, (words,))) for anchor, words in headings(page.body)
    )
    return tuple(term for term in terms if term.written)
