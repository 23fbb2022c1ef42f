"""What the referee makes of the pedal's contacts: its own integrator, apart from that of the firmware."""

from collections import deque

# The shortest press that the firmware may count is 25 ms; bounce and polling take some of it away.
LEAST_MS = 20
# A gesture that has not lit the lamp after so long must not light it any more; what else it brings about
# is written, and a pause of the processor may come between.
GESTURE_MS = 200
_NEVER_US = -(1 << 60)
_KEPT = 256


class Foot:
    """Gestures (a press and its release) and touches, from the contacts alone."""

    def __init__(self) -> None:
        self.is_up = True
        self.gestures = 0  # since the controller was started
        self.gesture_us = _NEVER_US  # when the last one ended
        self.uses = 0  # what the last one has started
        self.written_since = False  # the flash, since it ended
        self._touched_us = _NEVER_US
        self._closed_us = 0
        self._last_us = 0
        self._is_closed = False
        self._ends_us: deque[int] = deque(maxlen=_KEPT)  # of the last gestures
        self._pauses: deque[tuple[int, int]] = deque(maxlen=_KEPT)

    def stand_still(self, t_us: int, span_us: int) -> None:
        """The processor looks at nothing for so long: a gesture is answered so much later."""
        self._pauses.append((t_us, span_us))

    def is_fresh(self, t_us: int) -> bool:
        """May the last gesture light the lamp now?"""
        return 0 <= t_us - self.gesture_us <= GESTURE_MS * 1000

    def was_fresh(self, t_us: int) -> bool:
        """Could what happened then, earlier perhaps, be the answer to a gesture of its time?"""
        return any(self._answers(end_us, t_us) for end_us in (*self._ends_us, self.gesture_us))

    def _answers(self, end_us: int, t_us: int) -> bool:
        until_us = end_us + GESTURE_MS * 1000
        for start_us, span_us in self._pauses:
            if start_us <= until_us:
                until_us = max(until_us, start_us + span_us + GESTURE_MS * 1000)
        return end_us <= t_us <= until_us

    def forget(self) -> None:
        """The controller starts anew: what the foot did before is no gesture of this life."""
        self.gestures = 0
        self._closed_us = 0

    def move(self, t_us: int, make: bool, rest: bool) -> None:
        """The contacts at this moment."""
        passed_us = t_us - self._last_us
        if self._is_closed:
            self._closed_us += passed_us
        elif self.is_up and passed_us > LEAST_MS * 1000:
            self._closed_us = 0
        self._last_us = t_us
        self._is_closed = make and not rest
        self.is_up = rest and not make
        if self.is_up:
            self._release(t_us)
        else:
            self._touched_us = t_us

    def stops(self, t_us: int, within_us: int) -> bool:
        """Is a light that ended at this moment one that the pedal stopped?"""
        return not self.is_up or t_us - self._touched_us <= within_us

    def _release(self, t_us: int) -> None:
        if self._closed_us >= LEAST_MS * 1000:
            self.gestures += 1
            self.uses = 0
            self.written_since = False
            self._closed_us = 0
            self._ends_us.append(self.gesture_us)
            self.gesture_us = t_us
        elif t_us - self.gesture_us < 2 * LEAST_MS * 1000:
            self.gesture_us = t_us  # still bouncing
