"""What the journal tells after a reset: was a run cut off, where does it stand, what light has it had?

A run stands at the step that began or was announced last; once a step has ended, whichever way, at the one
after it; and where a person at the pedal has moved it to. Records are fed in order; memory does not grow
with them.
"""

from . import records
from .tally import Tally


class Recovery:
    """Feed it every record of the journal; then `run` is the number of a run that had not ended, or 0.

    `step` counts from 1 and is one past the last when all of the sheet's steps have ended. `tally`: the light
    that the present sheet has had.
    """

    def __init__(self):
        self.run = 0
        self.slot = 0
        self.sha = ""
        self.sheet = 0
        self.first_sheet = 0
        self.step = 0
        self.tally = Tally()
        self.open_ms = 0  # light of an intent that no record answers
        self.focus_open = False
        self.has_gap = False  # a record of the run is damaged, and nobody knows what it told
        self.last_run = 0
        self.last_sheet = 0
        self._before_ms = (0, 0)  # least and most that this step had had when it was last come to

    def feed(self, record):
        """One whole record (dict)."""
        read = _READERS.get(record["k"])
        if read:
            read(self, record)

    def miss(self):
        """A record is damaged."""
        self.has_gap = self.run != 0

    def least_ms(self):
        """Light that the sheet has surely had in this step since the run last came to it [ms]."""
        return max(0, self.tally.least_ms(self.step) - self._before_ms[0])

    def most_ms(self):
        """Light that it may have had in this step since then [ms]."""
        return max(0, self.tally.most_ms(self.step) - self._before_ms[1])

    def tighten(self, least_ms, most_ms):
        """Something else knows better how long the open exposure lasted (a register that a reset keeps)."""
        self.tally.add(self.step, least_ms, most_ms - self.open_ms)
        self.open_ms = 0

    def come_to(self, step, sheet):
        """The run stands at another step."""
        if sheet != self.sheet:
            self.tally.clear()
        self.step, self.sheet = step, sheet
        self.last_sheet = max(self.last_sheet, sheet)
        self.open_ms = 0
        self._before_ms = (self.tally.least_ms(step), self.tally.most_ms(step))


def _arm(state, record):
    state.run = state.last_run = record["run"]
    state.slot, state.sha = record["slot"], record["sha"]
    state.first_sheet = record["sheet"]
    state.has_gap = False
    state.tally.clear()
    state.come_to(1, record["sheet"])


def _at(state, record):
    if (record["step"], record["sheet"]) != (state.step, state.sheet):
        state.come_to(record["step"], record["sheet"])


def _move(state, record):
    state.come_to(record["step"], record["sheet"])


def _step(state, record):
    state.come_to(record["step"] + 1, record["sheet"])


def _intent(state, record):
    if record["run"] == 0:
        state.focus_open = True
        return
    _at(state, record)
    state.open_ms = record["light_ms"]
    state.tally.add(state.step, 0, record["light_ms"])


def _gave(state, record):
    _at(state, record)
    state.tally.add(state.step, record["light_ms"], record["light_ms"] - state.open_ms)
    state.open_ms = 0
    # What was held or broken off can be gone on with, unless nothing is left of it.
    if record["how"] not in (records.HELD, records.BROKEN) or record["left_ms"] == 0:
        state.come_to(state.step + 1, state.sheet)


def _cut(state, record):
    # The cut was already told once; what it found is all the light that the sheet has had in this step.
    if record["run"] == 0:
        state.focus_open = False
        return
    _at(state, record)
    state.tally.put(state.step, record["least_ms"], record["most_ms"])
    state.open_ms = 0
    state.has_gap = False


def _focus(state, record):
    state.focus_open = False


def _end(state, record):
    state.run = 0


_READERS = {
    "arm": _arm,
    "begin": _at,
    "step": _step,
    "intent": _intent,
    "gave": _gave,
    "cut": _cut,
    "focus": _focus,
    "end": _end,
    "move": _move,
}
