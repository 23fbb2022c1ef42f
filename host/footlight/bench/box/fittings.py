"""What is fitted beside the board: lamp and its sensor, probe, thermometer. `fit <JSON>` changes them."""

import json

import i2c
import lamp_house
import machine as _machine
import probe
import thermometer
import world as _worlds


def begin(pins, fitted):
    """Put the command of this module in force. `fitted`: see `footlight.bench.lamp.fitted`; or None."""
    lamp_house.begin(pins)
    _machine.listen(pins["I2C_SCL"], i2c.clock_moved)
    _worlds.world.commands["fit"] = lambda words: _fit(json.loads(words[0]))
    _fit(fitted)


def _fit(fitted):
    fitted = fitted or {}
    lamp_house.fit(fitted.get("lamp"), fitted.get("sensor"))
    probe.fit(fitted.get("probe"))
    thermometer.fit(fitted.get("thermometer"))
    _worlds.world.awake = True
