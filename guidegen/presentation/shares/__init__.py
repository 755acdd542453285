"""What each unit and each bracket gives to pages that show all of them.

A guide is made bracket by bracket: what a bracket gives is computed from its own records alone, and recalled as long as
these stay. Pages that show the whole guide are put together from the shares; they look at no result themselves.
"""

from guidegen.presentation.shares.brackets import BracketShare
from guidegen.presentation.shares.gathering import Gathered, gather
from guidegen.presentation.shares.units import UnitShare

__all__ = ["BracketShare", "Gathered", "UnitShare", "gather"]
