"""A moment of a run, in lines and as a plain dictionary."""

from typing import Any

from footlight.actions.watch_run import RunStatus
from footlight.quantities import format_clock
from footlight.report import aftermath
from footlight.views.times import light_text
from footlight_core import states

_OUTSIDE = {
    "idle": "no run under way",
    "pick": "a sheet is being chosen",
    "done": "the run has ended",
    "focus": "set-up light, off",
    "focus lit": "set-up light",
}


def status_lines(moment: RunStatus) -> list[str]:
    """A moment in a few plain lines."""
    status = moment.status
    lines = [_where(moment)]
    if status["fault"]:
        advice = aftermath.of_fault(status["fault"])
        lines.append(f"FAULT: {advice.happened}; a long press at the controller leaves it")
        lines += [line for line in (_rest(moment), advice.do, advice.check) if line]
    elif status["state"] == "broken":
        lines.append("the run was cut off here: go on with it, or leave it, at the controller")
        if moment.step.get("kind", "light") == "light":
            lines.append(
                "of a light the display says how much was given at least and at most; in doubt, give less"
            )
    elif status["state"] == "doubt":
        lines.append("how much light it has had is not known: choose at the controller what it still gets;")
        lines.append("MIN what is surely missing, NONE no more, MAX up to the whole; in doubt, give less")
    elif status["state"] in ("lit", "focus lit"):
        lines.append(_lit(status))
    elif status["state"] == "held":
        lines.append(
            f"lamp off, {light_text(status['left_ms'])} left: a press goes on, a long one abandons it"
        )
    elif status["state"] == "ready" and moment.step.get("kind") == "light":
        lines.append(f"ready for {light_text(status['left_ms'])} of light: a tap starts it")
    elif moment.passed_ms is not None:
        lines.append(_bath(moment))
    if status["white"]:
        lines.append("white light is permitted")
    return lines


def _lit(status: dict[str, Any]) -> str:
    # Of a counted light nobody knows beforehand how long it lasts.
    if status.get("dose_ms", -1) < 0:
        return f"lamp ON for {light_text(status['gate_ms'])}"
    return f"lamp ON, {light_text(status['dose_ms'])} of {light_text(status['left_ms'])} counted"


def _rest(moment: RunStatus) -> str:
    """What is left of a light that a fault ended; of one that did not report its end nobody knows."""
    status = moment.status
    if moment.step.get("kind") != "light" or status["fault"] == states.LOST_GATE:
        return ""
    return f"{light_text(status['left_ms'])} of this light left"


def _where(moment: RunStatus) -> str:
    status = moment.status
    if not moment.in_run:
        return _OUTSIDE.get(status["state"]) or str(status["state"])
    name = moment.step.get("name", "")
    count = f" of {len(moment.planned)}" if moment.planned else ""
    said = f"sheet {status['sheet']}, step {status['step']}{count}" + (f": {name}" if name else "")
    return f"{said} – {status['state']}"


def _bath(moment: RunStatus) -> str:
    planned_ms = moment.step.get("time_ms") or moment.step.get("most_ms")
    passed = _clock(moment.passed_ms or 0)
    return f"{passed} of {_clock(planned_ms)}" if planned_ms else passed


def _clock(span_ms: int) -> str:
    # A second that has not passed is not shown.
    return format_clock(span_ms // 1000 * 1000)


def status_dict(moment: RunStatus | str) -> dict[str, Any]:
    """The same for a script; of a controller that is away, why."""
    if isinstance(moment, str):
        return {"away": moment}
    return moment.status | {"name": moment.step.get("name")}
