"""The whole installed firmware on the emulated chip: a print with the foot, and the numbers promised."""

import pytest
from tests.emulated import needs_image, whole_print
from tests.emulated.whole_print import DEAD_MS, LIGHT_MS, Numbers

assert not needs_image.missing()


@pytest.fixture(scope="module")
def numbers() -> Numbers:
    return whole_print.measure()


def test_a_whole_print(numbers: Numbers):
    assert numbers.state == "done"
    kinds = [record["k"] for record in numbers.records]
    assert kinds[0] == "boot"
    assert kinds[-1] == "end"
    assert kinds.count("intent") == kinds.count("gave") == 3
    assert numbers.resets == 0


def test_lights_are_what_was_asked_and_what_was_recorded(numbers: Numbers):
    first, stopped, rest = (span / 1000 for span in numbers.gate_us)
    assert abs(first - (LIGHT_MS + DEAD_MS)) <= 0.003
    # What was stopped and what was resumed give the whole light, less a dead time for each of the two.
    assert stopped + rest - 2 * DEAD_MS == pytest.approx(LIGHT_MS, abs=1.0)
    gave = [record["gate_ms"] for record in numbers.records if record["k"] == "gave"]
    assert gave == pytest.approx([first, stopped, rest], abs=1.0)


def test_the_foot(numbers: Numbers):
    assert max(numbers.release_to_gate_ms) <= 60
    assert numbers.press_to_dark_ms <= 2


def test_memory_and_time(numbers: Numbers):
    assert numbers.heap_bytes >= 100 * 1024
    assert numbers.ready_ms <= 2_000
    assert 0 < numbers.longest_turn_ms <= 50


def test_no_flash_is_written_while_the_lamp_is_on(numbers: Numbers):
    assert numbers.erases_while_lit == 0
