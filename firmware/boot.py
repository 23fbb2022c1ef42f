"""Before anything else: everything that can light is low. Imports nothing that could fail on the way."""

from machine import Pin

# The numbers stand in controller/pins.py too, made from hardware/pins.toml; a test holds these to them.
# They are written out here so that nothing has to be found and loaded before the gate is low.
for _number in (2, 3, 6, 15):
    Pin(_number, Pin.OUT, Pin.PULL_DOWN, value=0)
