"""The controller's chip: size of the firmware, and the lamp's gate; with an image also the whole firmware.

Without a MicroPython image (FOOTLIGHT_UF2) the rows that only the emulated chip can show say so.
"""

import importlib.util
from collections.abc import Iterator

from tests.emulated import gate_run
from tests.emulated.chip_image import UF2

from footlight.install import image

Row = tuple[str, float | None, float | None, str, str]

_KIB = 1024
_TICKS = (1, 2, 100, 3000)


def rows() -> list[Row]:
    """(name, value or None when not measured, limit or None when there is none, unit, note)."""
    return [*_anywhere(), *(_emulated() if _can_emulate() else _left_out())]


def _can_emulate() -> bool:
    return bool(UF2) and importlib.util.find_spec("rp2040py") is not None


def _anywhere() -> Iterator[Row]:
    files = image.compiled_parts()
    yield "all .mpy files", sum(map(len, files.values())) / _KIB, None, "KiB", f"{len(files)} files"
    yield "gate time, error on a PIO emulator", _worst_error_us(), 0, "us", "1 to 3000 ticks"
    yield "pedal to gate low on a PIO emulator", _worst_stop_us() / 1000, 2, "ms", "at each cycle of a tick"


def _worst_error_us() -> float:
    cycles = gate_run.CYCLES_PER_TICK
    spans = [(ticks, gate_run.run(ticks, until=ticks * cycles + 40).gate_cycles) for ticks in _TICKS]
    return max(abs(span - ticks * cycles) for ticks, span in spans) * gate_run.US_PER_CYCLE


def _worst_stop_us() -> float:
    waits = []
    for down_at in range(200, 200 + gate_run.CYCLES_PER_TICK):
        light = gate_run.run(3000, until=400, pedal_down=lambda cycle, at=down_at: cycle >= at)
        waits.append(light.edges[1][0] - down_at)
    return max(waits) * gate_run.US_PER_CYCLE


_EMULATED = (
    ("gate time, error on the emulated chip", 3, "us"),
    ("power to ready", 2_000, "ms"),
    ("heap in use when armed", 140, "KiB"),
    ("pedal to gate low", 2, "ms"),
    ("release to gate high, under traffic", 60, "ms"),
    ("longest turn of the loop in a run, outside writing", 50, "ms"),
)


def _left_out() -> Iterator[Row]:
    for name, limit, unit in _EMULATED:
        yield name, None, limit, unit, "only an image can show it: set FOOTLIGHT_UF2"


def _emulated() -> Iterator[Row]:
    from tests.emulated import whole_print

    seen = whole_print.measure()
    asked_us = (whole_print.LIGHT_MS + whole_print.DEAD_MS) * 1000
    all_kib = seen.heap_all_bytes / _KIB
    values = (
        (abs(seen.gate_us[0] - asked_us), "a light of the whole firmware"),
        (seen.ready_ms, "first start, flash already formatted"),
        ((seen.heap_all_bytes - seen.heap_bytes) / _KIB, f"of {all_kib:.0f}: 100 must stay free"),
        (seen.press_to_dark_ms, "by hardware"),
        (max(seen.release_to_gate_ms), "worst of three"),
        (seen.longest_turn_ms, "a whole print, with traffic"),
    )
    for (name, limit, unit), (value, note) in zip(_EMULATED, values, strict=True):
        yield name, value, limit, unit, note
