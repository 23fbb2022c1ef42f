"""Whole runs on MicroPython with the heap locked whenever the app looks while the lamp is on.

`test_heap.py` holds the app's parts to it one by one; here it is the whole firmware on the bench.
"""

import shutil
from pathlib import Path

import pytest
from tests.controller.sabotage import FOCUS, LIT, PATHS, PROGRAM, Doing, down, up
from tests.controller.stage import armed, records

from footlight.bench import Bench
from footlight.bench.process import MICROPYTHON, best_interpreter
from footlight.firmware_files import firmware_folders
from footlight_core import states as st

pytestmark = pytest.mark.skipif(
    best_interpreter() != MICROPYTHON, reason="no MicroPython for this machine: only it can lock its heap"
)


def _dies(bench: Bench) -> None:
    # Seen in a first light, which a foot ends; in the next one the sensor sees nothing.
    bench.sense_lamp(2.5, 40)
    for _ in range(2):
        down(bench)
        up(bench)
        bench.run_for(1_000)
    bench.sense_lamp(0.0, 40)
    down(bench)
    up(bench)
    bench.run_for(2_000)


def _half_pressed(bench: Bench) -> None:
    # The rest contact stays closed, so that the hardware sees nothing: the stop is the loop's.
    bench.contacts(True, True)
    bench.run_for(200)
    up(bench)


def _nothing(bench: Bench) -> None:
    """Armed is all that comes before."""


WALKS: dict[str, tuple[Doing, Doing]] = PATHS | {
    "stopped by the loop": (LIT, _half_pressed),
    "a lamp that dies": (_nothing, _dies),
    "a set-up light that dies": (FOCUS, _dies),
}
# Every way out of a light that needs no broken chip; in a fault, the broken light is booked.
MOVES = {
    f"{st.LIT} > {st.READY}",
    f"{st.LIT} > {st.HELD}",
    f"{st.LIT} > {st.FAULT}",
    f"{st.FOCUS_LIT} > {st.FOCUS}",
    f"{st.FOCUS_LIT} > {st.FAULT}",
    f"{st.FAULT} > {st.FAULT}",
}
STOP = "            self._lamp.stop()\n            self._ask_gate()"
SPOILT = [
    ("app.py", STOP, '            str(now_ms) + " ms"\n' + STOP),
    (
        "guard.py",
        "        self._reported[task] = True",
        "        self._reported = [r for r in self._reported]",
    ),
    (
        "lamp.py",
        "        left = (self._left + 1) & _MASK",
        "        left = [self._left + 1][0] & _MASK",
    ),
]


def told(bench: Bench, kind: str) -> list[str]:
    """What was told of this kind."""
    return [event.text for event in bench.events if event.kind == kind]


def walk(folder: Path, name: str, firmware: Path | None = None) -> Bench:
    """A controller that has gone this way with its heap locked; it is off again."""
    before, doing = WALKS[name]
    folders = [firmware] if firmware else None
    with armed(folder, PROGRAM, interpreter=MICROPYTHON, locks_heap=True, firmware=folders) as bench:
        before(bench)
        doing(bench)
        bench.release()
        bench.run_for(8_000)
    return bench


def test_no_way_out_of_a_light_asks_for_memory(tmp_path: Path):
    moves: set[str] = set()
    for name in WALKS:
        bench = walk(tmp_path / name, name)
        assert told(bench, "greedy") == [], name
        assert all(record["code"] != st.NO_MEMORY for record in records(bench, "fault")), name
        moves.update(told(bench, "locked"))
    assert moves == MOVES


@pytest.mark.parametrize(("file", "old", "new"), SPOILT, ids=[file for file, _, _ in SPOILT])
def test_firmware_that_asks_for_memory_in_a_light_is_caught(tmp_path: Path, file: str, old: str, new: str):
    firmware = tmp_path / "firmware"
    shutil.copytree(firmware_folders()[0], firmware, ignore=shutil.ignore_patterns("__pycache__"))
    path = firmware / "controller" / file
    text = path.read_text()
    assert text.count(old) == 1
    path.write_text(text.replace(old, new))
    bench = walk(tmp_path / "flash", "stopped by the loop", firmware)
    assert told(bench, "greedy")
