"""From two contacts to gestures: press, short, long, and what is wrong with the pedal.

The pedal has a changeover contact: at rest the *rest* contact is closed, pressed the *make* contact
is. Press and release are its only events; a release is told as SHORT or LONG by how long the foot
was down, and means nothing when it may be older than 200 ms, for nobody has looked since. An integrator
counts time closed against time open, so that bounce is one press; stopping a light does not wait for it
(`touched`). Nothing here allocates: it runs while the lamp is on.
"""

from . import const

INTEGRATE_MS = const(25)  # a published bench survey of switches: mean bounce 1.6 ms, worst usual 6.2 ms
_LONG_MS = const(1000)
_TOO_LONG_MS = const(8000)
_STUCK_MS = const(10_000)
_STALE_MS = const(200)  # a release that may be older is not answered: the foot may long be elsewhere
_LOOK_MS = const(100)  # so often it wants to be fed while the foot is down, to know how old a release is
_DISAGREE_MS = const(250)  # a changeover contact is between its ends for some milliseconds, not longer
_CHATTER_MS = const(1000)
CHATTER_CHANGES = const(8)

# Events.
NONE = const(0)
PRESS = const(1)
SHORT = const(2)
LONG = const(3)
COUNTS = const(4)  # still down, and from now on the release is a long one
TOO_LONG = const(5)  # down past every meaning: a leaning foot, or a stuck pedal
STUCK = const(6)
WIRE = const(7)  # the two contacts contradict each other
WET = const(8)  # more changes in a second than a foot can make

NEVER_MS = const(-1)

# Where the foot is, as far as the integrator knows.
_UP = const(0)
_DOWN = const(1)
_UNKNOWN = const(2)  # before the first release was seen nothing counts


class Gestures:
    """Feed it the contacts and the time; it answers with one event, or NONE."""

    def __init__(self):
        self._foot = _UNKNOWN
        self._level_ms = 0  # 0 = surely open, INTEGRATE_MS = surely closed
        self._last_ms = 0
        self._touch_ms = 0  # when the present or last press first touched
        self._press_ms = 0
        self._told = NONE
        self._odd_since_ms = NEVER_MS
        self._changes = 0
        self._changes_since_ms = 0
        self._closed = False
        self._touched = False
        self._away_ms = 0  # when it was last seen anything but at rest: a release is no older
        self._near_ms = -INTEGRATE_MS  # when the pedal was last anything but at rest
        self._started = False

    def press_ms(self):
        """When the last press first touched [ms]."""
        return self._touch_ms

    def is_brief(self):
        """Is the foot down, and would its release be a short one?"""
        return self._foot == _DOWN and self._told == NONE

    def feed(self, now_ms, make, rest):
        """Contacts closed (True) or open at `now_ms` -> one event."""
        self._integrate(now_ms)
        self._watch_touch(now_ms, touched(make, rest))
        self._closed = make and not rest
        odd = self._watch_wires(now_ms, make, rest)
        # Between its ends a changeover contact is neither up nor down.
        return odd if make == rest else self._judge(now_ms)

    def due_ms(self):
        """When `feed` may have something to say although no contact moves [ms], or NEVER_MS."""
        due_ms = NEVER_MS
        if self._closed and self._level_ms < INTEGRATE_MS:
            due_ms = self._last_ms + INTEGRATE_MS - self._level_ms
        elif not self._closed and self._level_ms > 0:
            due_ms = self._last_ms + self._level_ms
        elif self._foot == _DOWN and self._told != STUCK:
            due_ms = min(self._press_ms + self._next_mark_ms(), self._last_ms + _LOOK_MS)
        elif self._foot == _UNKNOWN and self._closed and self._told != STUCK:
            due_ms = self._press_ms + _STUCK_MS
        if self._odd_since_ms != NEVER_MS and self._told != WIRE:
            odd_ms = self._odd_since_ms + _DISAGREE_MS
            if due_ms == NEVER_MS or odd_ms < due_ms:
                due_ms = odd_ms
        return due_ms

    def _next_mark_ms(self):
        if self._told == NONE:
            return _LONG_MS
        return _TOO_LONG_MS if self._told == COUNTS else _STUCK_MS

    def _integrate(self, now_ms):
        if not self._started:
            self._started = True
            self._last_ms = self._press_ms = self._changes_since_ms = now_ms
        passed_ms = now_ms - self._last_ms
        self._last_ms = now_ms
        if self._closed:
            self._level_ms = min(INTEGRATE_MS, self._level_ms + passed_ms)
        else:
            self._level_ms = max(0, self._level_ms - passed_ms)

    def _watch_touch(self, now_ms, is_touched):
        # The hardware stops a light as soon as the foot leaves rest, some milliseconds before the other
        # contact closes. The press begins at the first touch, or it would seem to come after the stop.
        if is_touched and not self._touched and now_ms - self._near_ms >= INTEGRATE_MS:
            self._touch_ms = now_ms
        if is_touched:
            self._away_ms = now_ms
        if is_touched or self._touched:
            self._near_ms = now_ms
        self._touched = is_touched

    def _watch_wires(self, now_ms, make, rest):
        if make != rest:
            self._odd_since_ms = NEVER_MS
            if self._told == WIRE:
                self._told = NONE
            return NONE
        if self._odd_since_ms == NEVER_MS:
            self._odd_since_ms = now_ms
        if now_ms - self._odd_since_ms < _DISAGREE_MS or self._told == WIRE:
            return NONE
        self._told = WIRE
        self._foot = _UNKNOWN
        return WIRE

    def _judge(self, now_ms):
        if self._level_ms == INTEGRATE_MS and self._closed and self._foot == _UP:
            return self._down(now_ms)
        if self._level_ms == 0 and not self._closed and self._foot != _UP:
            return self._up(now_ms)
        if self._closed and self._foot != _UP:
            return self._held(now_ms)
        return NONE

    def _down(self, now_ms):
        self._foot = _DOWN
        self._press_ms = self._touch_ms
        self._told = NONE
        if self._chatters(now_ms):
            self._foot = _UNKNOWN
            return WET
        return PRESS

    def _up(self, now_ms):
        was, told = self._foot, self._told
        self._foot = _UP
        self._told = NONE
        if was == _UNKNOWN:
            return NONE
        if self._chatters(now_ms):
            self._foot = _UNKNOWN
            return WET
        if now_ms - self._away_ms > _STALE_MS:
            return NONE
        if told == NONE:
            return SHORT
        return LONG if told == COUNTS else NONE

    def _held(self, now_ms):
        held_ms = now_ms - self._press_ms
        if held_ms >= _STUCK_MS and self._told != STUCK:
            self._told = STUCK
            self._foot = _UNKNOWN
            return STUCK
        if self._foot != _DOWN:
            return NONE
        if held_ms >= _TOO_LONG_MS and self._told == COUNTS:
            self._told = TOO_LONG
            return TOO_LONG
        if held_ms >= _LONG_MS and self._told == NONE:
            self._told = COUNTS
            return COUNTS
        return NONE

    def _chatters(self, now_ms):
        if now_ms - self._changes_since_ms > _CHATTER_MS:
            self._changes_since_ms = now_ms
            self._changes = 0
        self._changes += 1
        return self._changes > CHATTER_CHANGES


def touched(make, rest):
    """Is the pedal anything but surely at rest? Ends a light at once; a broken wire counts as a foot."""
    return make or not rest
