"""The lamp's PIO program on a PIO emulator: exact to the cycle, with every trap of its kind tried.

Times are in cycles of 2 us (500 kHz); five are a tick of 10 us. The opcodes are held against a second
assembly by hand, from the instruction encodings of the RP2040 data sheet, 3.4.
"""

from collections import deque

import pioemu
import pytest
from tests.emulated import gate_program
from tests.emulated.gate_run import CYCLES_PER_TICK, GATE, MASK, REST, run

# What a fall to `end` takes after the last tick of a count: nothing, for its instructions drive low.
AFTER = 40

# By hand from the data sheet: 3.4.2 JMP, 3.4.4 IN, 3.4.5 OUT, 3.4.6 PUSH, 3.4.7 PULL, 3.4.8 MOV, 3.4.10 SET;
# bits 12 and 11 are the side-set (pump, gate).
BY_HAND = [
    0x80A0,  # pull block
    0x6058,  # out y, 24
    0xE020,  # set x, 0
    0x0085,  # jmp y--, counts
    0x000C,  # jmp end
    0x00CC,  # counts: jmp pin, end
    0x9880,  # tick: pull noblock, gate and pump
    0xB827,  # mov x, osr, gate and pump
    0x082A,  # jmp !x, on, gate
    0x000C,  # jmp end
    0x08CC,  # on: jmp pin, end, gate
    0x0886,  # jmp y--, tick, gate
    0x4058,  # end: in y, 24
    0x8000,  # push noblock
    0x000E,  # stay: jmp stay
]


def test_opcodes_by_hand():
    assert gate_program.opcodes() == BY_HAND


def test_declared_options_are_those_of_the_emulation():
    options = gate_program.lamp_module().exposure.options
    assert options == {"sideset_init": ("low", "low"), "out_shiftdir": "right", "in_shiftdir": "left"}


@pytest.mark.parametrize("ticks", [0, 1, 2, 99, 100, 3000, 8000])
def test_exact(ticks: int):
    light = run(ticks, until=ticks * CYCLES_PER_TICK + AFTER)
    assert light.gate_cycles == ticks * CYCLES_PER_TICK
    assert light.ticks_left == 0
    assert not light.pump_alone


def test_pump_is_a_square_wave_of_one_period_a_tick():
    seen = []
    for _, state in pioemu.emulate(
        gate_program.opcodes(),
        stop_when=lambda opcode, now: now.clock >= 60,
        initial_state=pioemu.State(transmit_fifo=deque([7])),
        side_set_base=GATE,
        side_set_count=2,
        jmp_pin=REST,
    ):
        seen.append(state.pin_values >> GATE & 3)
    lit = seen[seen.index(3) : len(seen) - seen[::-1].index(1)]
    assert lit == [3, 3, 1, 1, 1] * 7
    assert set(seen) == {0, 1, 3}
    assert seen[: seen.index(3)] == [0] * seen.index(3) and seen[-10:] == [0] * 10


@pytest.mark.parametrize("down_at", [40, 41, 42, 43, 44, 250, 1000])
def test_pedal_ends_it_within_a_tick(down_at: int):
    light = run(3000, until=2000, pedal_down=lambda cycle: cycle >= down_at)
    (rise, _), (fall, _) = light.edges
    assert 0 < fall - down_at <= CYCLES_PER_TICK + 1
    # The tick under way is not counted as given, so the reading is short by less than one.
    given = 3000 - light.ticks_left
    assert given * CYCLES_PER_TICK <= fall - rise < (given + 1) * CYCLES_PER_TICK


def test_pedal_that_only_bounces_ends_it_for_good():
    light = run(3000, until=4000, pedal_down=lambda cycle: 500 <= cycle < 505)
    assert light.gate_cycles < 505
    assert 0 < light.ticks_left < 3000


@pytest.mark.parametrize("word", [1, 0xFFFFFFFF, 3000])
@pytest.mark.parametrize("at", [30, 31, 32, 33, 34, 700])
def test_a_word_ends_it_and_is_no_second_exposure(word: int, at: int):
    light = run(3000, until=17_000, later={at: word})
    (rise, _), (fall, _) = light.edges
    assert fall - at <= CYCLES_PER_TICK + 2
    given = 3000 - light.ticks_left
    assert abs(fall - rise - given * CYCLES_PER_TICK) <= CYCLES_PER_TICK
    assert light.left_in_queue == 0


def test_a_second_time_queued_at_the_start_is_never_a_second_exposure():
    light = run(3000, 500, until=20_000)
    # It is taken as the word that ends the light, in its first tick; and then nothing more comes.
    assert light.gate_cycles < CYCLES_PER_TICK
    assert light.ticks_left == 3000


@pytest.mark.parametrize("words", [1, 2, 4])
def test_words_that_come_after_the_end_stay_where_they_are(words: int):
    late = {600 + 20 * number: 3000 for number in range(words)}
    light = run(100, until=20_000, later=late)
    assert light.gate_cycles == 100 * CYCLES_PER_TICK
    assert len(light.pushed) == 1
    assert light.left_in_queue == words


def test_pedal_down_at_the_start_gives_no_edge_at_all():
    light = run(3000, until=400, pedal_down=lambda cycle: True)
    assert light.edges == [] and light.ticks_left == 3000


def test_no_ticks_gives_no_edge_and_not_the_longest_light():
    light = run(0, until=400)
    assert light.edges == [] and light.ticks_left == 0


def test_a_word_of_zero_does_not_end_a_light():
    # Only X tells a word from none; `stop` therefore puts 1.
    assert run(100, until=700, later={50: 0}).gate_cycles == 100 * CYCLES_PER_TICK


@pytest.mark.parametrize("word", [0x01000001, 0xFF000001])
def test_more_than_24_bits_cannot_be_counted(word: int):
    assert run(word, until=200).gate_cycles == CYCLES_PER_TICK


def test_longest_count_is_below_168_seconds():
    assert (MASK + 1) * CYCLES_PER_TICK / 500_000 < 168
    lamp = gate_program.lamp_module()
    assert lamp.CAP_MS * lamp.TICKS_PER_MS <= MASK


def test_nothing_but_the_loop_drives_anything():
    """Side-set of every instruction outside tick..jmp y-- is 0, and the last one jumps to itself."""
    code = gate_program.opcodes()
    loop = range(6, 12)
    assert all(op >> 11 & 3 == 0 for index, op in enumerate(code) if index not in loop)
    assert code[-1] == len(code) - 1
    jumps_back_to_pull = [op for op in code if op >> 13 == 0 and op & 31 == 0]
    assert jumps_back_to_pull == []
