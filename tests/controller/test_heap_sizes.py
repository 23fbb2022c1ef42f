"""A few heap sizes around the edges; the campaign `heap` takes them all, and counts how each ended.

How wide the edge is where the firmware starts but will not arm depends on what lies in the flash, on the
path and on the machine: sometimes it is nothing at all. That it refuses is therefore shown with a floor
that no heap reaches.
"""

from pathlib import Path

import pytest
from tests.controller.stage import gate_ms, records, switched_on
from tests.planted.bugs import Bug
from tests.planted.copies import copy_with
from tests.soak.heaps import DARK, PROGRAM, RAN, REFUSED, TOLD, edge_kib, one_size

from footlight.bench.bench import HEAP_KIB
from footlight.bench.glyphs import read_text
from footlight.bench.process import MICROPYTHON, best_interpreter
from footlight_core import states as st

pytestmark = pytest.mark.skipif(
    best_interpreter() != MICROPYTHON, reason="no MicroPython for this machine: CPython's heap has no size"
)
HIGH_FLOOR = Bug(
    "a floor that no heap reaches",
    "controller/app.py",
    "_LEAST_HEAP_BYTES = const(24_576)",
    "_LEAST_HEAP_BYTES = const(16_777_216)",
)


def test_a_heap_of_any_size_is_dark_or_refuses_or_runs_whole(tmp_path: Path):
    def outcomes(*sizes_kib: int) -> list[str]:
        return [one_size(tmp_path / str(size), size) for size in sizes_kib]

    edge = edge_kib(tmp_path / "edge")
    assert outcomes(8, edge - 16) == [DARK, DARK]
    assert set(outcomes(*range(edge - 3, edge + 12, 2))) <= {DARK, REFUSED, TOLD, RAN}
    assert outcomes(edge + 32, HEAP_KIB) == [RAN, RAN]


def test_too_little_room_refuses_to_arm_and_says_so(tmp_path: Path):
    with switched_on(tmp_path / "box", PROGRAM, firmware=[copy_with(HIGH_FLOOR, tmp_path)]) as bench:
        bench.hold()
        bench.run_for(700)
        bench.hold()
        bench.run_for(100)
        assert st.fault_word(st.NO_MEMORY) in read_text(bench.screen_rows())
        assert not records(bench, "arm") and not gate_ms(bench)


def test_the_chip_has_room_to_spare(tmp_path: Path):
    # Compiled from its sources, with the bench's own parts (lamps, probe) in the same heap: from 280 on.
    assert one_size(tmp_path, HEAP_KIB * 5 // 8) == RAN
