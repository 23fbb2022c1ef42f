"""The lamp's PIO program run on a PIO emulator, cycle by cycle, with words and a pedal.

Times are in cycles of 2 us (500 kHz); five are a tick of 10 us.
"""

from collections import deque
from collections.abc import Callable
from dataclasses import dataclass

import pioemu
from tests.emulated import gate_program

GATE, PUMP, REST = 2, 3, 12
CYCLES_PER_TICK = 5
US_PER_CYCLE = 2
MASK = (1 << 24) - 1


@dataclass
class Light:
    """One start of the program: cycles at which gate and pump changed, and what was pushed."""

    edges: list[tuple[int, int]]
    pump_alone: bool
    pushed: list[int]
    left_in_queue: int

    @property
    def gate_cycles(self) -> int:
        """How long the gate was up."""
        assert len(self.edges) in (0, 2), f"more than one light: {self.edges}"
        return self.edges[1][0] - self.edges[0][0] if self.edges else 0

    @property
    def ticks_left(self) -> int:
        """As lamp.py reads it."""
        (word,) = self.pushed
        return (word + 1) & MASK


def run(
    *words: int,
    until: int,
    pedal_down: Callable[[int], bool] = lambda cycle: False,
    later: dict[int, int] | None = None,
) -> Light:
    """Run for `until` cycles with these words queued; `later`: cycle -> a word that arrives then."""
    queue = deque(words)
    waiting = dict(later or {})
    edges: list[tuple[int, int]] = []
    gate, pump_alone, state = 0, False, None

    def contact(cycle: int) -> int:
        return pedal_down(cycle) << REST

    steps = pioemu.emulate(
        gate_program.opcodes(),
        stop_when=lambda opcode, now: now.clock >= until,
        initial_state=pioemu.State(transmit_fifo=queue),
        input_source=contact,
        shift_isr_right=False,
        side_set_base=GATE,
        side_set_count=2,
        jmp_pin=REST,
    )
    for before, state in steps:
        if state.clock in waiting:
            state.transmit_fifo.append(waiting.pop(state.clock))
        up = state.pin_values >> GATE & 1
        pump_alone |= bool(state.pin_values >> PUMP & 1) and not up
        if up != gate:
            edges.append((before.clock, up))
            gate = up
    assert state is not None and not waiting
    return Light(edges, pump_alone, list(state.receive_fifo), len(state.transmit_fifo))
