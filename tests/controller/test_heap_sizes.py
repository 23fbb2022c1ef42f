"""A few heap sizes around the edges; the campaign `heap` takes them all."""

from pathlib import Path

import pytest
from tests.soak.heaps import DARK, RAN, REFUSED, edge_kib, one_size

from footlight.bench.bench import HEAP_KIB
from footlight.bench.process import MICROPYTHON, best_interpreter

pytestmark = pytest.mark.skipif(
    best_interpreter() != MICROPYTHON, reason="no MicroPython for this machine: CPython's heap has no size"
)


def test_a_heap_of_any_size_is_dark_or_refuses_or_runs_whole(tmp_path: Path):
    def found(*sizes_kib: int) -> list[str]:
        return [one_size(tmp_path / str(size), size) for size in sizes_kib]

    # What lies in the flash, and how long its path is, move the edge by a few KiB.
    edge = edge_kib(tmp_path / "edge")
    assert found(8, edge - 16) == [DARK, DARK]
    # By how much differs from run to run: every size about it, until one refuses.
    near = found(edge - 3, edge - 1)
    for size in range(edge, edge + 15):
        near += found(size)
        if REFUSED in near:
            break
    assert REFUSED in near and set(near) <= {DARK, REFUSED, RAN}
    assert found(edge + 16, HEAP_KIB) == [RAN, RAN]


def test_the_chip_has_room_to_spare(tmp_path: Path):
    assert one_size(tmp_path, HEAP_KIB // 2) == RAN
