"""What the tests of the folded firmware share: its sources, and what folding makes of them."""

from pathlib import Path

from footlight.install import image
from footlight.install.folding import folded

FIRMWARE = Path(__file__).parents[3] / "firmware"
_ALL = {path: file.read_text("utf-8") for path, file in image.sources().items()}
_BY_NAME = (image.BOOT, image.MAIN)

SOURCES = {path: text for path, text in _ALL.items() if path not in _BY_NAME}
# What runs beside them.
USERS = {path: _ALL[path] for path in _BY_NAME} | image.at_prompt()
SHORT = folded(SOURCES, USERS)
