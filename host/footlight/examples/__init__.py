"""Three complete sequences to start from, and their light setups. The scenario in them is invented."""

from importlib import resources
from pathlib import Path

SETUPS = "light-setups.toml"
# name -> what it is
NAMES = {
    "pre-flash": "flash a batch of dry sheets under a bare lamp, one after the other",
    "reversal-print": "the wet run of one sheet, from first developer to wash, with its second exposure",
    "second-exposure-strip": "the same run with a strip in third-stops instead of the one second exposure",
}


def text(file_name: str) -> str:
    """The text of an example file."""
    return resources.files(__name__).joinpath(file_name).read_text(encoding="utf-8")


def path(name: str) -> Path:
    """Where an example lies, by its name in NAMES; its light setups lie beside it."""
    return Path(str(resources.files(__name__).joinpath(f"{name}.toml")))
