"""What the lamp sense says about the lamp: burning when it should not, dark when it should burn.

The sensor is optional, and an unfitted one reads dark for ever. So darkness under an open gate counts as
a fault only where one is said to be fitted, or has seen the lamp burn since it was switched on. One that is
said to be fitted and has seen nothing yet is a fault once: after that its darkness says nothing any more.
"""

from footlight_core import const
from footlight_core import states as st

_SEEN_MS = const(100)  # relay and filament need some time; what is dark after this will not burn
_SEEN_LEARNT_MS = const(300)  # a large filament from cold, where its level was learnt: at most
_AFTERGLOW_MS = const(1000)
_NEVER_MS = const(-1)


class Sight:
    """`sense`: callable that says whether the lamp burns. `known`: a sensor.Sensor."""

    def __init__(self, sense, known):
        self._sense = sense
        self._known = known
        self._seen = False  # the lamp, since it was switched on
        self._doubted = False
        self._judges = True
        self._open = False
        self._burnt = False
        self._went_dark = False
        self._since_ms = 0  # when the gate last changed
        self._due_ms = _AFTERGLOW_MS
        self._told = st.NO_FAULT

    def gate(self, is_open, now_ms, is_setting_up=False):
        """The gate opened or closed. The set-up light may be of a lamp that is not learnt yet."""
        self._open = is_open
        self._judges = not (is_setting_up and self._known.fitted)
        self._burnt = self._burnt and not is_open
        self._went_dark = False
        self._since_ms = now_ms
        seen_ms = _SEEN_LEARNT_MS if self._known.lamps else _SEEN_MS
        self._due_ms = now_ms + (seen_ms if is_open else _AFTERGLOW_MS)
        self._told = st.NO_FAULT

    def look(self, now_ms):
        """-> a fault code, once until something changes; NO_FAULT when all is well."""
        burns = self._sense()
        if self._due_ms != _NEVER_MS and now_ms >= self._due_ms:
            self._due_ms = _NEVER_MS
        code = self._judge_open(burns) if self._open else self._judge_closed(burns)
        if code == self._told:
            return st.NO_FAULT
        self._told = code
        self._doubted = self._doubted or (code == st.NO_LIGHT and not self._seen)
        return code

    def gave_none(self):
        """After NO_LIGHT: is it sure that this exposure gave no light? Not where the sensor may be dead."""
        return self._seen and not self._burnt

    def is_welded(self):
        """Does the lamp burn although the gate has been closed for long?"""
        return not self._open and self._due_ms == _NEVER_MS and bool(self._sense())

    def due_ms(self):
        """When to look although nothing changed [ms], or -1 for never."""
        return self._due_ms

    def _judge_open(self, burns):
        self._seen = self._seen or burns
        self._burnt = self._burnt or burns
        late = self._due_ms == _NEVER_MS
        works = self._seen or (self._known.lamps and self._known.fitted and not self._doubted)
        return st.NO_LIGHT if late and works and self._judges and not burns else st.NO_FAULT

    def _judge_closed(self, burns):
        if not burns:
            self._went_dark = True
            return st.NO_FAULT
        if self._went_dark:
            return st.LIGHT_NOT_ASKED
        return st.WELDED_RELAY if self._due_ms == _NEVER_MS else st.NO_FAULT
