"""The one place that says what is missing when a scan cannot be read on this computer."""

import importlib.util

from footlight.errors import FootlightError, act

_PACKAGES = ("numpy", "scipy", "PIL", "tifffile", "matplotlib")


def scans() -> None:
    """Raise FootlightError, one line with the remedy, unless all that reading a scan needs is installed."""
    missing = [name for name in _PACKAGES if importlib.util.find_spec(name) is None]
    if missing:
        raise FootlightError(
            f"reading a scan needs {', '.join(missing)}: pip install 'footlight[scans]'"
            f" (reading by eye needs nothing: {act('read eye')})"
        )
