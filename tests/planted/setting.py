"""What every scene stands on: an armed controller under the referee, and what a foot does there."""

import contextlib
from pathlib import Path
from typing import Any

from tests.controller.stage import BATH, LIGHT, armed, program, status

from footlight.bench import Bench
from footlight.bench.referee import watch

BLEACH = {"kind": "judge", "name": "bleach", "show": "BLEACH", "least_ms": 3_000, "most_ms": 60_000}
PRINT = program(LIGHT, BATH, BLEACH, LIGHT | {"time_ms": 2_000}, BATH | {"name": "fix", "white": 1})
Options = dict[str, Any]


@contextlib.contextmanager
def on_stage(folder: Path, options: Options, raw: dict[str, Any] = PRINT):
    """A controller with a run armed, judged by the referee."""
    with armed(folder, raw, **options) as bench:
        referee = watch(bench)
        yield bench
        referee.finish()


def state(bench: Bench) -> str:
    """The state that the controller tells."""
    return status(bench)["state"]


def light(bench: Bench, span_ms: float) -> None:
    """A tap that starts a light, and so long."""
    bench.run_for(700)
    bench.tap()
    assert bench.lamp
    bench.run_for(span_ms)


def lit(bench: Bench, span_ms: float = 2_000) -> None:
    """The light under way, for so long."""
    light(bench, span_ms)
    assert bench.lamp


def leave(bench: Bench) -> None:
    """Out of the armed run, to idle."""
    bench.hold()
    for _ in range(4):
        bench.run_for(700)
        bench.tap()
    bench.run_for(700)
    bench.hold()
    bench.run_for(700)
    assert state(bench) == "idle"
