"""What search engines read beside the page: JSON-LD in the words of schema.org, one module a kind of page.

Every number comes by ``guidegen.rounding``, every sentence from the sheet that the reader sees. Lists carry no rating
and no product, since a rating speaks of one thing; a unit without a place carries no rating at all.
"""

from guidegen.presentation.linked_data.bracket import bracket_linked_data
from guidegen.presentation.linked_data.dataset import dataset_linked_data
from guidegen.presentation.linked_data.home import home_linked_data
from guidegen.presentation.linked_data.reading import list_linked_data, prose_linked_data
from guidegen.presentation.linked_data.unit import unit_linked_data

__all__ = [
    "bracket_linked_data", "dataset_linked_data", "home_linked_data", "list_linked_data", "prose_linked_data",
    "unit_linked_data",
]
