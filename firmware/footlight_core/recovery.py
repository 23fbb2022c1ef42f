"""What the journal tells after a reset: was a run cut off, at which step, and how much light it may have had.

Records are fed in order; memory does not grow with them.
"""

from . import records


class Recovery:
    """Feed it every record of the journal; then `run` is the number of a run that had not ended, or 0."""

    def __init__(self):
        self.run = 0
        self.slot = 0
        self.sha = ""
        self.sheet = 0
        self.first_sheet = 0
        self.sheets = 1
        self.step = 0
        self.least_ms = 0
        self.most_ms = 0
        self.in_light = False
        self.open_gate_ms = 0  # of an intent that no record answers
        self.focus_open = False
        self.last_run = 0
        self.last_sheet = 0

    def feed(self, record):
        """One whole record (dict)."""
        read = _READERS.get(record["k"])
        if read:
            read(self, record)

    def tighten(self, least_ms, most_ms):
        """Something else knows better how long the open exposure lasted (a register that a reset keeps)."""
        self.least_ms += least_ms
        self.most_ms += most_ms - self.open_gate_ms


def _arm(state, record):
    state.run = state.last_run = record["run"]
    state.slot, state.sha = record["slot"], record["sha"]
    state.sheet = state.first_sheet = state.last_sheet = record["sheet"]
    state.sheets = record["sheets"]
    state.step = 1
    _close(state)


def _close(state):
    state.least_ms = state.most_ms = state.open_gate_ms = 0
    state.in_light = False


def _at(state, record):
    if (record["step"], record["sheet"]) != (state.step, state.sheet):
        _close(state)
    state.step, state.sheet = record["step"], record["sheet"]
    state.last_sheet = max(state.last_sheet, state.sheet)


def _begin(state, record):
    _at(state, record)


def _step(state, record):
    _at(state, record)
    _close(state)


def _intent(state, record):
    if record["run"] == 0:
        state.focus_open = True
        return
    _at(state, record)
    state.in_light = True
    state.open_gate_ms = record["light_ms"]
    state.most_ms += record["light_ms"]


def _gave(state, record):
    state.most_ms += record["light_ms"] - state.open_gate_ms
    state.least_ms += record["light_ms"]
    state.open_gate_ms = 0
    if record["how"] not in (records.HELD, records.BROKEN):
        _close(state)


def _cut(state, record):
    # The cut was already told once; what it found is the light given so far.
    if record["run"] == 0:
        state.focus_open = False
        return
    state.least_ms, state.most_ms = record["least_ms"], record["most_ms"]
    state.open_gate_ms = 0


def _focus(state, record):
    state.focus_open = False


def _end(state, record):
    state.run = 0
    _close(state)


_READERS = {
    "arm": _arm,
    "begin": _begin,
    "step": _step,
    "intent": _intent,
    "gave": _gave,
    "cut": _cut,
    "focus": _focus,
    "end": _end,
}
