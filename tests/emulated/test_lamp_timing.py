"""The lamp's gate on the emulated chip, timed at its pin while the processor does its worst."""

import pytest
from tests.emulated import needs_image, scripts
from tests.emulated.stage import GATE, PUMP, REST, spans_us, started

assert not needs_image.missing()

LIMIT_US = 3.0
# What a light of the app is; a short one too, for what only its ends would show.
LIGHTS_MS = (1, 30)


@pytest.mark.parametrize("load", ["no load", "display", "allocation", "gc.collect", "usb"])
def test_error_under_load(load: str):
    chip = started(scripts.lights(load, LIGHTS_MS), "controller/display", "controller/font")
    gate = chip.watch(GATE)
    assert chip.run_until(lambda: b"DONE" in chip.cable.peek(), 4_000)
    errors_us = [span - 1000 * ms for span, ms in zip(spans_us(gate), LIGHTS_MS, strict=True)]
    assert max(map(abs, errors_us)) <= LIMIT_US
    assert str(list(LIGHTS_MS)).encode() in chip.cable.peek()


@pytest.mark.parametrize("erase_ms", [45, 400])
def test_error_while_flash_is_erased(erase_ms: int):
    chip = started(scripts.lights("flash", (150,)), erase_ms=erase_ms)
    gate = chip.watch(GATE)
    assert chip.run_until(lambda: b"DONE" in chip.cable.peek(), 60_000)
    (rise_ns, _), (fall_ns, _) = gate
    assert [at for at in chip.erases if rise_ns < at < fall_ns]
    assert abs(spans_us(gate)[0] - 150_000) <= LIMIT_US


def test_pedal_ends_a_light_with_the_processor_stuck():
    chip = started(scripts.one_light(2_000, scripts.STUCK))
    gate, pump = chip.watch(GATE), chip.watch(PUMP)
    assert chip.run_until(lambda: len(gate) == 1, 2_000)
    chip.run_for(2)
    pressed_ns = chip.clock.nanos
    chip.drive(REST, 1)
    chip.run_for(3)
    assert [level for _, level in gate] == [1, 0]
    assert gate[1][0] - pressed_ns <= 20_000
    assert pump[-1][1] == 0 and pump[-1][0] <= gate[1][0]
    chip.drive(REST, 0)
    chip.run_for(3)
    assert len(gate) == 2


def test_stuck_processor_makes_no_light_longer():
    chip = started(scripts.one_light(40, scripts.STUCK))
    gate = chip.watch(GATE)
    assert chip.run_until(lambda: len(gate) == 2, 2_000)
    assert abs(spans_us(gate)[0] - 40_000) <= LIMIT_US
