"""Each leg of the lamp's coil tried alone, in the dark, its voltage read back; the white contact watched.

The coil lies between a high leg (to +5 V, follows the gate) and a low leg (to ground, held by the pump).
A leg that does not let go any more lights nothing by itself, and so would stay unseen; here it is a fault
before the first sheet. At rest a resistor lifts both legs to half the supply. The order matters: a leg that
conducts for good shows at rest, and then nothing is tried, for the other leg alone would light the lamp.
"""

from footlight_core import const
from footlight_core import states as st

# Readings of half a leg's voltage, 65535 for 3.3 V: 0.25, 1.5, 3.5 and 4.4 V at the leg.
_GROUND = const(2_482)
_LOW = const(14_894)
_HIGH = const(34_753)
_WHOLE = const(43_690)
_OVER = const(57_600)  # 5.8 V at a leg: no supply gives that, but a read-back that halves nothing does
_SETTLE_MS = const(2)  # a leg follows its pin within 0.2 ms
_LEVEL_MS = const(6)  # the one edge of a level that rises is gone by then
_LET_GO_MS = const(8)  # the low leg lets go within 5 ms
_PUMP_HERTZ = const(100_000)
_PUMP_DUTY = const(26_214)
_LOOKS = const(3)  # so often in a row, for a line may be disturbed


class Legs:
    """`gate`, `pump`: set a pin to a level; `run_pump`: starts it, and returns what stops it; `high`, `low`:
    readings; `white`: is the white contact's coil at rest, and the supply there? `wait_ms`: sleeps."""

    def __init__(self, gate, pump, run_pump, high, low, white, wait_ms):
        self._gate = gate
        self._pump = pump
        self._run_pump = run_pump
        self._high = high
        self._low = low
        self._white = white
        self._wait_ms = wait_ms
        self._told = st.NO_FAULT
        self._times = 0
        self.code = st.NO_FAULT

    def trial(self):
        """Try each leg alone -> a fault code, kept as `code`. Only while no light can be asked for."""
        self.code = self._rest_code()
        if self.code == st.NO_FAULT and not (
            self._tries_high() and self._tries_level() and self._tries_low()
        ):
            self.code = st.COIL_LEG
        return self.code

    def supply_is_back(self):
        """Was there no supply at the trial, and is there now?"""
        return self.code == st.NO_SUPPLY and bool(self._white())

    def look(self, is_asked):
        """Is the white contact as it was asked? -> a fault code, once until something changes."""
        is_wrong = not is_asked and not self._white()
        self._times = self._times + 1 if is_wrong else 0
        if is_wrong and self._times < _LOOKS:
            return st.NO_FAULT
        code = self._white_code() if is_wrong else st.NO_FAULT
        if code == self._told:
            return st.NO_FAULT
        self._told = code
        return code

    def _white_code(self):
        # With the supply gone the whole box is dark; the chip lives on the computer's cable.
        has_none = self._high() < _GROUND and self._low() < _GROUND
        return st.NO_SUPPLY if has_none else st.WHITE_OPEN

    def _rest_code(self):
        if not self._white():
            return self._white_code()
        return st.NO_FAULT if self._rests() else st.COIL_LEG

    def _rests(self):
        return self._high() < _HIGH and self._low() > _LOW

    def _tries_high(self):
        self._gate(1)
        self._wait_ms(_SETTLE_MS)
        is_good = _OVER > self._high() > _WHOLE and _OVER > self._low() > _LOW
        self._gate(0)
        self._wait_ms(_SETTLE_MS)
        return is_good and self._rests()

    def _tries_level(self):
        # The pump must pass edges only: a level that gets through would hold the leg with the pump stuck.
        self._pump(1)
        self._wait_ms(_LEVEL_MS)
        is_good = self._rests()
        self._pump(0)
        return is_good

    def _tries_low(self):
        stop = self._run_pump(_PUMP_HERTZ, _PUMP_DUTY)
        self._wait_ms(_SETTLE_MS)
        is_good = self._low() < _GROUND and self._high() < _HIGH
        stop()
        self._pump(0)
        self._wait_ms(_LET_GO_MS)
        return is_good and self._rests()
