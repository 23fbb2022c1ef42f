"""The pedal: two contacts in, gestures out."""

from footlight_core import gestures
from footlight_core.gestures import Gestures


class Pedal:
    """`make` and `rest` are callables that say whether their contact is closed."""

    def __init__(self, make, rest):
        self._make = make
        self._rest = rest
        self._gestures = Gestures()

    def look(self, now_ms):
        """Read the contacts -> one event of `gestures`."""
        return self._gestures.feed(now_ms, self._make() == 1, self._rest() == 1)

    def touched(self):
        """Is it anything but surely at rest? A light ends at once on this, with no integrator between."""
        return gestures.touched(self._make() == 1, self._rest() == 1)

    def press_ms(self):
        """When the last press first touched [ms]."""
        return self._gestures.press_ms()

    def is_up(self):
        """Has a release been seen, and is the foot off?"""
        return self._gestures.is_up()

    def is_brief(self):
        """Is the foot down, and would its release be a short one?"""
        return self._gestures.is_brief()

    def due_ms(self):
        """When to look again although nothing moves [ms], or NEVER_MS."""
        return self._gestures.due_ms()
