"""The platform's folders for a user's settings and data."""

import os
import sys
from pathlib import Path
from typing import Literal

_NAME = "footlight"
# XDG Base Directory Specification 0.8: the variable, and what holds without it or where it is not absolute.
_XDG = {"config": ("XDG_CONFIG_HOME", "~/.config"), "data": ("XDG_DATA_HOME", "~/.local/share")}


def user_folder(kind: Literal["config", "data"]) -> Path:
    """The tool's own folder there; it need not exist."""
    if sys.platform == "linux":
        # Every command asks; the library would load archives and hashes first, a tenth of a bare start.
        variable, usual = _XDG[kind]
        named = os.environ.get(variable, "")
        return Path(named if os.path.isabs(named) else os.path.expanduser(usual)) / _NAME
    import platformdirs

    folder = platformdirs.user_config_path if kind == "config" else platformdirs.user_data_path
    return folder(_NAME, appauthor=False)
