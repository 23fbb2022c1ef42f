"""The lamp's coil between its two legs, and the white contact's coil, as their read-backs see them.

At rest a resistor lifts the coil to half the supply. `coil <what is wrong>` plants a fault:

    high shorted, low shorted   a leg conducts for good
    high dead, low dead         a leg never conducts
    level passes                the pump passes a level: its capacitor is shorted
    holds on                    the low leg does not let go after the pump
    no supply                   the chip lives on the computer's cable
    white shorted               the white contact is closed for good
"""

import machine as _machine
import world as _worlds

_SUPPLY_V = 5.0
_REST_V = 2.5
_BEYOND_LEG = 0.5  # the read-back halves a leg's voltage
_FULL_V = 3.3
_FULL = 65_535

_pins = {}
_fault = [""]
_has_pumped = [False]


def begin(pins, fault):
    """`pins`: numbers by name."""
    _pins.clear()
    _pins.update(pins)
    _fault[0] = fault
    _has_pumped[0] = False
    _machine.legs = (pins["LAMP_GATE"], pins["LAMP_PUMP"])
    _machine.models[pins["COIL_HIGH"]] = lambda: _reading(_legs_v()[0])
    _machine.models[pins["COIL_LOW"]] = lambda: _reading(_legs_v()[1])
    _worlds.world.commands["coil"] = _command_coil
    _machine.listen(pins["WHITE"], _show_white)
    _show_white(0)


def _command_coil(words):
    _fault[0] = " ".join(words)
    _show_white(_machine.level_of(_pins["WHITE"]))


def _show_white(level):
    is_low = level or _fault[0] in ("white shorted", "no supply")
    _machine.set_input(_pins["WHITE_READ"], 0 if is_low else 1)


def _legs_v():
    if _fault[0] == "no supply":
        return 0.0, 0.0
    is_high, is_low = _is_high_on(), _is_low_on()
    if is_high:
        return _SUPPLY_V, 0.0 if is_low else _SUPPLY_V
    return (0.0, 0.0) if is_low else (_REST_V, _REST_V)


def _is_high_on():
    if _fault[0] in ("high shorted", "high dead"):
        return _fault[0] == "high shorted"
    return bool(_machine.level_of(_pins["LAMP_GATE"]))


def _is_low_on():
    if _fault[0] in ("low shorted", "low dead"):
        return _fault[0] == "low shorted"
    _has_pumped[0] = _has_pumped[0] or _machine.is_pumped()
    if _fault[0] == "holds on" and _has_pumped[0]:
        return True
    is_up = bool(_machine.level_of(_pins["LAMP_PUMP"]))
    return _machine.is_pumped() or (is_up and _fault[0] == "level passes")


def _reading(leg_v):
    return int(leg_v * _BEYOND_LEG / _FULL_V * _FULL)
