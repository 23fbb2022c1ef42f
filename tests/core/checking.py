"""What the core's cases share. Runs on CPython and on MicroPython; prints one line a check."""

import sys

from footlight_core import effects as fx
from footlight_core import program, records
from footlight_core import states as st
from footlight_core.sequencer import Sequencer

# What a trace calls the effects; the sounds in the order of their numbers.
NAMES = {fx.LAMP_ON: "lamp on", fx.LAMP_OFF: "lamp off", fx.WHITE: "white", fx.KEEP: "keep"}
SOUNDS = "start lift time over second stir still cue counts no off ready done turn wash fault".split()

# More turns of its timers than any stage here has: a sequencer that is due for ever must fail, not hang.
_MOST_TURNS = 2000

_failed = [0]


def check(name, got, wanted):
    """Print `ok name`, or what was got and wanted."""
    if got == wanted:
        print("ok", name)
    else:
        _failed[0] += 1
        print("NOT", name, "got", got, "wanted", wanted)


def finish():
    """Leave with the right exit code."""
    sys.exit(1 if _failed[0] else 0)


def lamp(cap_ms=60_000, window_ms=300_000):
    """A lamp."""
    return {"name": "LAMP", "cap_ms": cap_ms, "window_ms": window_ms}


def bath(name, time_ms, **more):
    """A bath."""
    step = {"kind": "bath", "name": name, "show": name.upper()[:6], "time_ms": time_ms}
    step.update(more)
    return step


def light(time_ms, **more):
    """A light."""
    step = {"kind": "light", "name": "light", "show": "LIGHT", "time_ms": time_ms}
    step.update(more)
    return step


def head(*steps, **more):
    """A whole program of these steps."""
    raw = {"v": 1, "title": "TITLE", "name": "a title", "lamps": [lamp()], "steps": list(steps)}
    raw.update(more)
    return raw


SHA = "ab" * 32


class Shelf:
    """One program in slot 1."""

    def __init__(self, loaded):
        self.loaded = loaded

    def entries(self):
        return ((1, SHA, "TITLE"),)

    def load(self, slot, sha):
        return self.loaded if sha == SHA else None


class Stage:
    """A sequencer with an ideal gate; collects what it wants done as (ms, text) lines."""

    def __init__(self, raw, may_arm=None):
        self.seq = Sequencer(Shelf(program.check(raw)), may_arm or (lambda loaded: 0))
        self.trace = []
        self.gate_off_ms = None
        self.lit_at_ms = 0
        self.turns = 0

    def event(self, event, now_ms, arg=None):
        """Let time pass to `now_ms`, then one event; for a gesture `arg` is when it first touched."""
        self.until(now_ms)
        if arg is None:
            arg = now_ms - 100
        found = self.seq.handle(event, arg, now_ms)
        self._apply(now_ms)
        return found

    def until(self, now_ms):
        """Let timers and gate speak up to `now_ms`."""
        while True:
            self._count_turn()
            due_ms = self.seq.due_ms()
            gate_ms = self.gate_off_ms
            if gate_ms is not None and gate_ms <= now_ms and (due_ms == st.NEVER_MS or gate_ms <= due_ms):
                self._end_gate(gate_ms)
            elif due_ms != st.NEVER_MS and due_ms <= now_ms:
                while self.seq.tick(due_ms):
                    self._count_turn()
                    self._apply(due_ms)
            else:
                return

    def _count_turn(self):
        self.turns += 1
        if self.turns > _MOST_TURNS:
            raise RuntimeError("the timers never come to rest")

    def states(self, *events):
        """Events in order, each (event, ms) -> the states after them."""
        return [(self.event(event, ms), self.seq.state)[1] for event, ms in events]

    def take(self):
        """The trace so far, emptied."""
        trace, self.trace = self.trace, []
        return trace

    def _end_gate(self, now_ms):
        self.gate_off_ms = None
        self.trace.append((now_ms, "gate low"))
        self.seq.handle(st.GATE, now_ms - self.lit_at_ms, now_ms)
        self._apply(now_ms)

    def _apply(self, now_ms):
        queue = self.seq.effects
        lines = [self._line(queue, index) for index in range(queue.count)]
        on = [queue.values[index] for index in range(queue.count) if queue.kinds[index] == fx.LAMP_ON]
        off = [1 for index in range(queue.count) if queue.kinds[index] == fx.LAMP_OFF]
        queue.clear()
        self.trace += [(now_ms, line) for line in lines]
        if on:
            self.lit_at_ms, self.gate_off_ms = now_ms, now_ms + on[0]
        if off and self.gate_off_ms is not None:
            self._end_gate(now_ms)

    def _line(self, queue, index):
        kind, value = queue.kinds[index], queue.values[index]
        if kind == fx.SOUND:
            return SOUNDS[value]
        if kind == fx.RECORD:
            return self._record_line(records.from_note(value, queue.notes[index], self.seq.run))
        return NAMES[kind] + " %d" % value

    def _record_line(self, record):
        fields = records.fields_of(record["k"])
        shown = [str(record[field]) for field in fields if field not in ("sha", "slot", "title")]
        return "# " + " ".join([record["k"]] + shown)


def armed(*steps, **more):
    """A stage armed for sheet 1 at 4 s, with its trace emptied."""
    stage = Stage(head(*steps, **more))
    stage.event(st.LONG, 2000)
    if stage.seq.state == st.PICK:
        stage.event(st.LONG, 4000)
    stage.take()
    return stage


def told(stage, word):
    """The lines of the trace since the last look that begin with a word, without their time."""
    return [line for _, line in stage.take() if line.startswith(word)]
