"""Small sequence and light-setups files for the tests."""

from pathlib import Path

SETUPS = """
[lamp.lamp]
cap = "60 s"
ten_minute_limit = "3:00"

[setup.second]
lamp = "lamp"
lens = "80 mm"
focal_length = "80 mm"
stop = "f/11"
height = "800 mm"
dead_time = "60 ms"
reference = "6.0 s at 620 mm f/11"
departure = 1.0
"""
HEAD = """title = "TEST"
name = "a test"
"""
TRAY = """[trays.fixer]
place = "5"
tongs = "C"
"""
FIX = """[[step]]
kind = "bath"
name = "fix"
tray = "fixer"
time = "1:00"
"""
LIGHT = """[[step]]
kind = "light"
name = "second exposure"
show = "LIGHT"
setup = "second"
dose = "reference"
"""
PAUSE = """[[step]]
kind = "pause"
name = "look"
"""


def write(folder: Path, text: str, setups: str = SETUPS) -> Path:
    """A sequence file and its light setups."""
    (folder / "light-setups.toml").write_text(setups, encoding="utf-8")
    path = folder / "test.toml"
    path.write_text(text, encoding="utf-8")
    return path
