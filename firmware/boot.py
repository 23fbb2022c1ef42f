"""Before anything else: everything that can light is low. Imports nothing that could fail on the way."""

import gc

from machine import Pin

_TIDY_BYTES = 16_384

# The numbers stand in controller/pins.py too, made from hardware/pins.toml; a test holds these to them.
# They are written out here so that nothing has to be found and loaded before the gate is low.
for _number in (2, 3, 6, 15):
    Pin(_number, Pin.OUT, Pin.PULL_DOWN, value=0)

# Tidied often from here on: without it, what loading the parts leaves behind lies in crumbs over the whole
# heap, until no kilobyte in one piece is left on the chip and the app cannot be built.
if hasattr(gc, "threshold"):
    gc.threshold(_TIDY_BYTES)
