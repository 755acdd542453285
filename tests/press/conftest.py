"""What the tests of the press share: the small edition in two states."""

import pytest

from tests.publications import TwoStates, two_states


@pytest.fixture(scope="session")
def guide(tmp_path_factory: pytest.TempPathFactory) -> TwoStates:
    """Both states, published once."""
    return two_states(tmp_path_factory.mktemp("two-states"))
