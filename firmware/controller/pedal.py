"""The pedal: two contacts in, gestures out."""

from footlight_core.gestures import Gestures, touched


class Pedal(Gestures):
    """`make` and `rest` are callables that say whether their contact is closed."""

    def __init__(self, make, rest):
        super().__init__()
        self._make = make
        self._rest = rest

    def look(self, now_ms):
        """Read the contacts -> one event of `gestures`."""
        return self.feed(now_ms, self._make() == 1, self._rest() == 1)

    def touched(self):
        """Is it anything but surely at rest? A light ends at once on this, with no integrator between."""
        return touched(self._make() == 1, self._rest() == 1)
