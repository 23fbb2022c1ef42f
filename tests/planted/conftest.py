"""Here the firmware is spoilt on purpose: what catches it is judged, and nobody else may be first."""

import pytest


@pytest.fixture(autouse=True)
def referee() -> None:
    """None."""
