"""The tests, in the same tree as the package."""
