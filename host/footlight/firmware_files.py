"""Where the firmware's files are: beside this tool's own source, or inside the installed package."""

import runpy
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from footlight.errors import FootlightError


def firmware_folders() -> list[Path]:
    """The folders that hold `main.py` with `controller`, and `footlight_core`."""
    spec = find_spec("footlight_core")
    if spec is None or spec.origin is None:
        raise FootlightError("footlight_core is not installed; install the package 'footlight' again")
    core = Path(spec.origin).parents[1]
    inside = Path(__file__).parent / "_firmware"
    if inside.is_dir():
        return [inside, core]
    return [core]


def constants(name: str, folder: Path | None = None) -> dict[str, Any]:
    """What `controller/<name>.py` declares, such as "pins" or "chip": name -> value.

    `folder`: which firmware; without it the tool's own.
    """
    return runpy.run_path(str((folder or firmware_folders()[0]) / "controller" / f"{name}.py"))
