"""The lamp's PIO program: every state that it can reach for 0 to 12 ticks, and a proof for each of 24 bits.

The program is the firmware's own, assembled by a general-purpose assembler; the machine is written from the
RP2040 data sheet and held against a PIO emulator. Each property is killed by a change of the program. What is
assumed: the word that is to end a light comes into an empty queue, as `lamp.py` sees to, and is not 0. The
chip samples the pin two system clocks late, 16 ns: less than a hundredth of a cycle.
"""

from collections import deque

import adafruit_pioasm
import pioemu
import pytest
from tests.emulated import gate_program
from tests.proof.exploration import explore
from tests.proof.induction import unproved
from tests.proof.pio_machine import EMPTY, WORD, ZERO, Inputs, Numbers, State, cycle

MOST_TICKS = 12
# The property that a change of the program breaks -> the line, and what stands there instead.
PLANTED = {
    "the pump is never alone": ("mov x, osr side 3", "mov x, osr side 2"),
    "no second light": ("jmp stay side 0", "jmp again side 0"),
    "lit for 5 N cycles at most": ("jmp y-- counts side 0", "jmp counts side 0"),
    "dark 5 cycles after the pin": ("jmp pin end side 1", "mov y, y side 1"),
    "no edge with the pin high": ("jmp pin end side 0", "mov y, y side 0"),
    "dark 7 lit cycles after a word": ("jmp !x on side 1", "jmp on side 1"),
    "the remainder is told once, within a tick": ("in y, 24 side 0", "in x, 24 side 0"),
}
MORE_PLANTED = {
    "no ticks are the most there are": ("jmp end side 0", "mov y, y side 0", "lit for 5 N cycles at most"),
    "the count is not taken": ("jmp y-- tick side 1", "jmp tick side 1", "lit for 5 N cycles at most"),
    "it tells for ever": ("jmp stay side 0", "jmp end side 0", "the remainder is told once, within a tick"),
    "the upper bits count": ("out y, 24 side 0", "mov y, osr side 0", "lit for 5 N cycles at most"),
    "lit at rest": ("jmp stay side 0", "jmp stay side 1", "no second light"),
}


def planted(line: str, instead: str) -> list[int]:
    """The program with the first such line changed."""
    text = gate_program.assembly()
    assert line in text
    text = text.replace(line, instead, 1).replace("pull block", "again:\npull block")
    return list(adafruit_pioasm.Program(text).assembled)


def breaks(opcodes: list[int], name: str) -> bool:
    """Is the property broken with 0, 1 or 2 ticks?"""
    return any(name in explore(opcodes, ticks, name).broken for ticks in range(3))


@pytest.mark.parametrize("ticks", range(MOST_TICKS + 1))
def test_every_state_of_a_light(ticks: int):
    light = explore(gate_program.opcodes(), ticks)
    assert light.broken == set()
    assert light.whole
    assert light.states == (168 if ticks == 0 else 470 + 658 * (ticks - 1))
    loop = {5, 6, 7, 8, 9, 10, 11}
    assert light.places == set(range(15)) - (loop if ticks == 0 else {4})


def test_every_count_of_24_bits():
    assert unproved(gate_program.opcodes()) == set()


@pytest.mark.parametrize("name", PLANTED)
def test_each_property_is_killed(name: str):
    opcodes = planted(*PLANTED[name])
    assert breaks(opcodes, name)
    assert unproved(opcodes)


@pytest.mark.parametrize("what", MORE_PLANTED)
def test_more_is_caught(what: str):
    line, instead, name = MORE_PLANTED[what]
    opcodes = planted(line, instead)
    assert breaks(opcodes, name)
    assert unproved(opcodes)


def test_a_light_that_ends_too_soon_is_caught():
    opcodes = planted("set x, 0 side 0", "set x, 1 side 0")
    assert not explore(opcodes, 2).whole
    assert unproved(opcodes)


def test_every_property_has_a_planted_change():
    state = State(1, 0, 0, 0, 0, EMPTY, 0, 0, False, 0, False, 0, 0)
    inputs = Inputs(False, EMPTY, 1, 1)
    after = cycle(gate_program.opcodes()[0], 0, 14, state, inputs, Numbers)
    assert set(after.kept) == set(PLANTED)


@pytest.mark.parametrize("ticks", [0, 1, 5])
@pytest.mark.parametrize("high_from", [0, 4, 9, 14, 60])
@pytest.mark.parametrize("word_at", [7, 10, 13, 60])
def test_the_machine_is_that_of_an_emulator(ticks: int, high_from: int, word_at: int):
    """Place, X and Y, cycle for cycle, and whether a result came, against a PIO emulator of other hands."""
    opcodes, queue = gate_program.opcodes(), deque([ticks])

    def pin(clock: int) -> int:
        return int(clock >= high_from)

    theirs = pioemu.emulate(
        opcodes,
        stop_when=lambda opcode, now: now.clock >= 50,
        initial_state=pioemu.State(transmit_fifo=queue),
        input_source=pin,
        jmp_pin=0,
        side_set_base=2,
        side_set_count=2,
        shift_isr_right=False,
    )
    place, ours, told = 0, State(0, 0, 0, 0, 0, ZERO, 0, 0, False, 0, False, 0, 0), 0
    for clock, (_, now) in enumerate(theirs):
        inputs = Inputs(pin(clock), WORD if clock == word_at else EMPTY, ticks, 1)
        after = cycle(opcodes[place], place, len(opcodes) - 1, ours, inputs, Numbers)
        place, ours = after.place, after.state
        assert (place, ours.x, ours.y) == (now.program_counter, now.x_register, now.y_register), clock
        told = len(now.receive_fifo)
        if clock == word_at:
            now.transmit_fifo.append(1)
    assert ours.pushes == told
