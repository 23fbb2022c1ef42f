"""The shipped sequences run to their end in the controller's own sequencer, at the times that the plan says.

A scripted foot answers at once where a step waits; what it takes (half a second of calm) is counted.
"""

from typing import Any

import pytest

from footlight import examples, sequence
from footlight_core import effects as fx
from footlight_core import records
from footlight_core import states as st
from footlight_core.sequencer import Sequencer

TOUCH_MS = 600  # from a state's beginning to the press; longer than the calm that a start wants
TAP_MS = 50


class Shelf:
    """One program in one slot."""

    def __init__(self, program: dict[str, Any]):
        self.program = program

    def entries(self):
        return ((1, "ab" * 32, self.program["title"]),)

    def load(self, slot, sha):
        return self.program


class Foot:
    """Runs a program; `begun` are (step, sheet, ms) of every step and light begun, `white_ms` the first
    permission of white light, `waited_ms` the sum of what the foot took."""

    def __init__(self, program: dict[str, Any]):
        self.seq = Sequencer(Shelf(program), lambda loaded: 0)
        self.now_ms = 0
        self.waited_ms = 0
        self.begun: list[tuple[int, int, int]] = []
        self.white_ms: int | None = None
        self.gate_end_ms = st.NEVER_MS

    def take(self) -> None:
        """Note what the sequencer wants done."""
        effects = self.seq.effects
        for place in range(effects.count):
            kind, value = effects.kinds[place], effects.values[place]
            if kind == fx.LAMP_ON:
                self.gate_end_ms = self.now_ms + value
                self.begun.append((self.seq.run.index + 1, self.seq.run.sheet, self.now_ms))
            if kind == fx.WHITE and value and self.white_ms is None:
                self.white_ms = self.now_ms
            if kind == fx.RECORD and value == records.BEGIN:
                note = effects.notes[place]
                self.begun.append((note[fx.STEP], note[fx.SHEET], self.now_ms))
        effects.clear()

    def tap(self, event: str, at_ms: int) -> None:
        self.wait_until(at_ms)
        self.now_ms = at_ms + TAP_MS
        self.seq.handle(event, at_ms, self.now_ms)
        self.take()

    def wait_until(self, until_ms: int) -> None:
        """Let timers and the gate speak, in order, up to a time."""
        while True:
            due_ms = self.seq.due_ms()
            gate = self.gate_end_ms != st.NEVER_MS and (due_ms == st.NEVER_MS or self.gate_end_ms <= due_ms)
            next_ms = self.gate_end_ms if gate else due_ms
            if next_ms == st.NEVER_MS or next_ms > until_ms:
                break
            self.now_ms = max(self.now_ms, next_ms)
            if gate:
                self.gate_end_ms = st.NEVER_MS
                self.seq.handle(st.GATE, self.seq.run.gate_ms, self.now_ms)
            else:
                self.seq.tick(self.now_ms)
            self.take()
        self.now_ms = max(self.now_ms, until_ms)

    def answer(self) -> None:
        """What a printer does in the present state."""
        seq, step = self.seq, self.seq.run.step()
        if seq.state in (st.READY, st.PAUSED, st.OVER):
            settled_ms = max(seq.ready_ms if seq.state == st.READY else 0, self.now_ms)
            self.waited_ms += TOUCH_MS + TAP_MS
            self.tap(st.SHORT, settled_ms + TOUCH_MS)
        elif seq.state == st.JUDGED:
            middle_ms = (step["least_ms"] + step["most_ms"]) // 2
            self.tap(st.SHORT, seq.run.start_ms + middle_ms - TAP_MS)
        else:
            self.wait_until(self.gate_end_ms if seq.state == st.LIT else seq.due_ms())


@pytest.mark.parametrize("name", examples.NAMES)
def test_runs_to_the_end_as_planned(name: str):
    made = sequence.compile(sequence.load(examples.path(name)))
    foot = Foot(made.program)
    foot.tap(st.LONG, 1000)
    if foot.seq.state == st.PICK:
        foot.tap(st.LONG, 3000)
    began_ms, foot.waited_ms = foot.now_ms, 0
    waits: dict[tuple[int, int], int] = {}
    for _ in range(2000):
        if foot.seq.state == st.DONE:
            break
        known = len(foot.begun)
        foot.answer()
        for step, sheet, _ms in foot.begun[known:]:
            waits[(step, sheet)] = foot.waited_ms
    assert foot.seq.state == st.DONE
    spans = [span for span in sequence.timeline(made) if span.kind != "pause"]
    real = {(step, sheet): ms - began_ms - waits[(step, sheet)] for step, sheet, ms in foot.begun}
    planned = {(span.step_number, span.sheet): span.start_ms for span in spans}
    assert real == planned


def test_white_light_where_the_plan_says():
    made = sequence.compile(sequence.load(examples.path("reversal-print")))
    foot = Foot(made.program)
    foot.tap(st.LONG, 1000)
    foot.tap(st.LONG, 3000)
    for _ in range(2000):
        if foot.white_ms is not None:
            break
        foot.answer()
    assert foot.seq.run.index + 1 == 11 and foot.seq.state == st.BATH
