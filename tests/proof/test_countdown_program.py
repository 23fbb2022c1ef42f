"""The program that sends the word of a counted light's end: when, and that it cannot lengthen a light.

It drives no pin and reads none. All that it does to the lamp is a word in the lamp's queue, and what any word
at any cycle does there is proved for the lamp's own program (`test_lamp_program`): dark within seven lit
cycles, never a second light, never more than the count that was put first. So the count is the cap, whatever
comes from here. Held against a PIO emulator of other hands, cycle for cycle; each property is killed once.
"""

import itertools
from collections import deque

import adafruit_pioasm
import pioemu
import pytest
from tests.emulated import gate_program

CYCLES_PER_TICK = 5
_ROOM = 32  # instructions of a PIO block, which both programs share


def sent(opcodes: list[int], puts: dict[int, int], cycles: int) -> list[tuple[int, int]]:
    """(cycle, word) of each word sent; `puts`: cycle -> word put into the queue."""
    words: list[tuple[int, int]] = []
    steps = pioemu.emulate(
        opcodes,
        stop_when=lambda opcode, now: now.clock >= cycles,
        initial_state=pioemu.State(transmit_fifo=deque()),
        shift_isr_right=False,
    )
    waiting = dict(puts)
    for _, now in steps:
        for cycle in [cycle for cycle in waiting if cycle <= now.clock]:
            now.transmit_fifo.append(waiting.pop(cycle))
        while now.receive_fifo:
            words.append((now.clock, now.receive_fifo.popleft()))
    return words


def program(line: str = "", instead: str = "") -> list[int]:
    text = gate_program.countdown_assembly()
    assert line in text
    return list(adafruit_pioasm.Program(text.replace(line, instead, 1)).assembled)


def is_right(opcodes: list[int]) -> bool:
    """Each count, replaced by each other count at each cycle: one word, not 0, on its tick, then silence."""
    for ticks in range(9):
        if not _on_time(sent(opcodes, {3: ticks}, 200), 3, ticks):
            return False
        for other, at in itertools.product((0, 2, 7), range(4, 3 + CYCLES_PER_TICK * ticks)):
            words = sent(opcodes, {3: ticks, at: other}, 200)
            # In the last tick of a count the next one comes too late.
            is_late = at > 3 + CYCLES_PER_TICK * (ticks - 1) and _on_time(words, 3, ticks)
            if not is_late and not _on_time(words, at, other):
                return False
    return sent(opcodes, {}, 200) == []


def _on_time(words: list[tuple[int, int]], put_at: int, ticks: int) -> bool:
    # A count is taken within the tick under way, and sent within five cycles of its end.
    if len(words) != 1 or words[0][1] == 0:
        return False
    late = words[0][0] - put_at - CYCLES_PER_TICK * ticks
    return 0 <= late <= 2 * CYCLES_PER_TICK + 1


def test_each_count_and_each_that_replaces_it():
    assert is_right(program())


def test_what_comes_after_the_end_is_not_heard():
    assert len(sent(program(), {3: 2, 40: 1, 50: 3}, 300)) == 1


@pytest.mark.parametrize(
    ("line", "instead"),
    [
        ("jmp tick [1]", "jmp tick"),
        ("pull noblock", "mov x, x"),
        ("mov isr, x", "mov isr, null"),
        ("jmp stay", "jmp tick"),
        ("jmp x-- on", "jmp !x on"),
    ],
)
def test_each_change_is_caught(line: str, instead: str):
    assert not is_right(program(line, instead))


def test_both_programs_fit():
    assert len(program()) + len(gate_program.opcodes()) <= _ROOM
