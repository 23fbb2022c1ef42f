"""How fast the bench is: virtual time against the wall."""

import tempfile
import time
from pathlib import Path

from tests.controller.stage import BATH, LIGHT, armed, program, state

SPEED_WANTED = 900
STIR = {"stir_first_ms": 30_000, "stir_every_ms": 30_000, "stir_for_ms": 5_000}
QUARTER_HOUR = program(
    BATH | STIR | {"time_ms": 700_000, "lift_ms": 10_000},
    LIGHT | {"time_ms": 59_000},
    BATH | {"time_ms": 100_000},
)


def rows() -> list[tuple[str, float, float, str, str]]:
    """(name, value, limit, unit, note)."""
    speed, interpreter = _virtual_speed()
    return [
        (
            "a 15-minute run in virtual time, wall time × 900 / virtual time",
            SPEED_WANTED / speed,
            1.0,
            "×",
            f"{speed:.0f} × real time on {interpreter}, display frames included",
        )
    ]


def _virtual_speed() -> tuple[float, str]:
    with tempfile.TemporaryDirectory() as folder, armed(Path(folder), QUARTER_HOUR) as bench:
        begin_s, begin_ms = time.perf_counter(), bench.now_ms
        for span_ms in (695_000, 1_000, 60_000, 144_000):
            bench.tap()
            bench.run_for(span_ms)
        wall_s = time.perf_counter() - begin_s
        assert state(bench) == "over", "the run went otherwise than it was meant to"
        return (bench.now_ms - begin_ms) / 1000 / wall_s, bench.interpreter
