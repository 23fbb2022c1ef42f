"""A run under way as rows, a row a step: what is done, what is going on, what is to come."""

from dataclasses import dataclass
from typing import Literal

from footlight.actions.watch_run import RunStatus
from footlight.views.times import bath_text, light_text
from footlight_core.program import LIGHT

Stands = Literal["done", "now", "to come"]


@dataclass(frozen=True)
class RunRow:
    """A step. planned: in words. share: how much of its planned time has passed, 0 to 1; over_share: how far
    it is beyond it, 0 to 1."""

    number: int
    name: str
    kind: str
    stands: Stands
    planned: str
    share: float
    over_share: float = 0.0


def run_rows(moment: RunStatus) -> list[RunRow]:
    """The steps of the run, none where no run is under way or its plan is not known."""
    if not moment.in_run:
        return []
    here = moment.status["step"]
    return [_row(moment, number, here) for number in range(1, len(moment.planned) + 1)]


def _row(moment: RunStatus, number: int, here: int) -> RunRow:
    step = moment.planned[number - 1]
    stands: Stands = "now" if number == here else "done" if number < here else "to come"
    planned_ms = step.get("time_ms") or step.get("most_ms")
    passed_ms = _passed_ms(moment) if stands == "now" else 0
    share = passed_ms / planned_ms if planned_ms else 0.0
    text = light_text if step.get("kind") == LIGHT else bath_text
    return RunRow(
        number,
        step.get("name", ""),
        step.get("kind", ""),
        stands,
        text(planned_ms),
        1.0 if stands == "done" else min(share, 1.0),
        max(0.0, min(share - 1.0, 1.0)),
    )


def _passed_ms(moment: RunStatus) -> int:
    if moment.status["state"] in ("lit", "held"):
        return moment.status["gate_ms"]
    return moment.passed_ms or 0
