"""Where the MicroPython image for the emulated chip is; it is never part of this repository."""

import os

UF2 = os.environ.get("FOOTLIGHT_UF2", "")
