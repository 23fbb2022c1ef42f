"""lamp.py on the emulated chip: each trap of a timer in hardware, tried with MicroPython's own `rp2`."""

from tests.emulated import gate_program, needs_image, scripts
from tests.emulated.chip import Chip
from tests.emulated.stage import GATE, PUMP, REST, spans_us, started

assert not needs_image.missing()


def said(chip: Chip, word: str) -> str:
    """The rest of the line that begins with a word."""
    lines = chip.cable.peek().decode().splitlines()
    return next(line.removeprefix(word + " ") for line in lines if line.startswith(word + " "))


def test_traps_and_opcodes():
    chip = started(scripts.TRAPS)
    gate = chip.watch(GATE)
    assert chip.run_until(lambda: b"DONE" in chip.cable.peek(), 4_000)
    # The chip's own assembler makes the same program as the one that the PIO emulator ran.
    assert said(chip, "OPCODES") == str(gate_program.opcodes())
    spans = spans_us(gate)
    stopped_ms, *rest = eval(said(chip, "SAID").removesuffix(" DONE"))  # noqa: S307 - our own script's list
    # Stopped by a word after 8 ms; words that were queued after the end shorten nothing that follows;
    # a result nobody read belies nothing that follows; taken back by dark(): nothing to read, not lit.
    assert rest == [6, 5, -1, False, "refused", "refused", "refused", 3]
    assert abs(stopped_ms - spans[0] / 1000) <= 1 and 8 <= stopped_ms < 12
    assert [round(span) for span in spans[1:4]] == [6_000, 4_000, 5_000]
    assert 3_000 < spans[4] < 8_000
    assert round(spans[5]) == 3_000 and len(spans) == 6


def test_foot_down_at_the_start_gives_no_edge_at_all():
    chip = started(scripts.one_light(20, "time.sleep_ms(5)\nprint(lamp.read_gate_ms(), 'DONE')"))
    chip.drive(REST, 1)
    gate, pump = chip.watch(GATE), chip.watch(PUMP)
    assert chip.run_until(lambda: b"DONE" in chip.cable.peek(), 2_000)
    assert gate == [] and pump == []
    assert b"0 DONE" in chip.cable.peek()


def test_ctrl_c_leaves_the_light_to_its_time():
    chip = started(scripts.one_light(60, "time.sleep_ms(5000)"))
    gate = chip.watch(GATE)
    assert chip.run_until(lambda: len(gate) == 1, 2_000)
    chip.run_for(10)
    chip.cable.write(b"\x03")
    assert chip.run_until(lambda: b"KeyboardInterrupt" in chip.cable.peek(), 500)
    chip.run_for(100)
    assert abs(spans_us(gate)[0] - 60_000) <= 3


def test_soft_reset_in_a_light_is_dark_as_soon_as_boot_runs():
    chip = started(scripts.one_light(800, ""))
    gate = chip.watch(GATE)
    assert chip.run_until(lambda: b">>>" in chip.cable.peek(), 2_000)
    assert [level for _, level in gate] == [1]
    chip.cable.take()
    asked_ms = chip.now_ms
    chip.cable.write(b"\x04")
    assert chip.run_until(lambda: chip.level(GATE) == 0, 400)
    assert chip.now_ms - asked_ms < 60


def test_nothing_is_high_from_power_up_to_the_first_light():
    chip = started("import time\ntime.sleep_ms(50)\nprint('DONE')")
    gate, pump = chip.watch(GATE), chip.watch(PUMP)
    assert chip.run_until(lambda: b"DONE" in chip.cable.peek(), 2_000)
    assert gate == [] and pump == []
    assert chip.level(GATE) == chip.level(PUMP) == 0


def test_watchdog_makes_a_hang_dark_and_leaves_its_reason():
    hang = "machine.mem32[0x4005800c] = 0xF01\nmachine.WDT(timeout=80)\n" + scripts.STUCK
    chip = started(scripts.one_light(1_000, hang))
    gate = chip.watch(GATE)
    assert chip.run_until(lambda: bool(chip.resets), 400)
    chip.run_for(0.01)
    assert chip.level(GATE) == 0 and chip.level(PUMP) == 0
    assert chip.scratch(0) == 0xF01
    assert len(gate) >= 1
