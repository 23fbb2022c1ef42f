"""The guard over the bench's watchdog: fed only when all have reported, and what a reset leaves behind.

The fault model's rows 'main loop hangs' and 'exception anywhere', I4 and I15. Addresses and the enable bit
are those of the RP2040 data sheet, 4.7 Watchdog.
"""

import gc
from typing import Any

import pytest
from tests.controller.in_process.box import Box

CTRL, SCRATCH0, SCRATCH1 = 0x40058000, 0x4005800C, 0x40058010
ENABLE = 1 << 30
WATCHDOG_RESET = 3


@pytest.fixture
def firmware(box: Box) -> Any:
    return box.controller("guard")


def cut_short(box: Box, span_ms: int) -> bool:
    """Does the watchdog end what runs within this time?"""
    try:
        box.wait_ms(span_ms)
    except BaseException as error:  # noqa: BLE001 - it passes every handler of the firmware, so also Exception
        assert type(error).__name__ == "PowerCut"
        return True
    return False


def report_all(guard: Any, firmware: Any) -> None:
    for task in range(firmware.TASKS):
        guard.report(task)


def test_a_loop_that_reports_goes_on(box: Box, firmware: Any):
    guard = firmware.Guard()
    guard.start()
    for _ in range(5):
        report_all(guard, firmware)
        assert guard.feed_if_all_reported()
        assert not cut_short(box, firmware.TIMEOUT_MS - 1)


@pytest.mark.parametrize("silent", range(4))
def test_one_silent_task_is_a_reset(box: Box, firmware: Any, silent: int):
    guard = firmware.Guard()
    guard.start()
    for task in range(firmware.TASKS):
        if task != silent:
            guard.report(task)
    assert not guard.feed_if_all_reported()
    assert cut_short(box, firmware.TIMEOUT_MS + 1)
    assert [text.split()[0] for _, _, text in box.events("reset")] == ["watchdog"]


def test_reports_count_for_one_feed(firmware: Any):
    guard = firmware.Guard()
    guard.start()
    report_all(guard, firmware)
    assert guard.feed_if_all_reported()
    assert not guard.feed_if_all_reported()


def test_nothing_to_feed_before_the_start(box: Box, firmware: Any):
    guard = firmware.Guard()
    report_all(guard, firmware)
    guard.feed_for_writing()
    assert not guard.feed_if_all_reported()
    assert not box.machine.mem32[CTRL] & ENABLE


def test_writing_feeds_whoever_is_silent(box: Box, firmware: Any):
    guard = firmware.Guard()
    guard.start()
    for _ in range(3):
        guard.feed_for_writing()
        assert not cut_short(box, firmware.TIMEOUT_MS - 1)
    assert cut_short(box, 2)


def test_the_prompt_has_no_watchdog(box: Box, firmware: Any):
    guard = firmware.Guard()
    guard.start()
    assert box.machine.mem32[CTRL] & ENABLE
    guard.stop()
    assert not box.machine.mem32[CTRL] & ENABLE
    assert not cut_short(box, 10 * firmware.TIMEOUT_MS)
    report_all(guard, firmware)
    assert not guard.feed_if_all_reported()


@pytest.mark.parametrize("reason", ["ASKED", "EXCEPTION"])
def test_a_reason_outlives_its_reset_once(box: Box, firmware: Any, reason: str):
    firmware.Guard().note(getattr(firmware, reason), 4711)
    box.machine.cause = WATCHDOG_RESET
    assert firmware.Guard().last_reason() == (getattr(firmware, reason), 4711)
    assert firmware.Guard().last_reason() == (firmware.HANG, 0), "the next reset did not say why"


def test_a_start_without_a_reason(box: Box, firmware: Any):
    assert firmware.Guard().last_reason() == (firmware.POWER, 0)
    # What power-on leaves in a register is anything at all.
    box.machine.mem32[SCRATCH0], box.machine.mem32[SCRATCH1] = 0xA5A5_1234, 99
    assert firmware.Guard().last_reason() == (firmware.POWER, 0)
    box.machine.cause = WATCHDOG_RESET
    assert firmware.Guard().last_reason() == (firmware.HANG, 0)


def test_free_memory_is_what_the_interpreter_says(firmware: Any, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(gc, "mem_free", lambda: 81_000, raising=False)
    assert firmware.Guard().free_heap() == 81_000
