"""Polling a controller's status and showing it in lines."""

import json
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import click

from footlight.link import find
from footlight.link.channel import Channel
from footlight.link.errors import LinkError, PortError, SilentError
from footlight.notebook.book import notebook
from footlight.notebook.journal import programs
from footlight.report import aftermath
from footlight.views.times import light_text
from footlight_core import states

_NO_RUN = ("idle", "pick", "done", "focus", "focus lit")
_OUTSIDE = {
    "idle": "no run under way",
    "pick": "a sheet is being chosen",
    "done": "the run has ended",
    "focus": "set-up light, off",
    "focus lit": "set-up light",
}
POLL_S = 0.2
AWAY_S = 1.0

Planned = list[dict[str, Any]]


def names_from(book: Path) -> Callable[[str], Planned]:
    """A function that gives the steps of a program by its hash, as far as the notebook knows it."""

    known: dict[str, Planned] = {}

    def look(sha: str) -> Planned:
        if sha not in known and sha and book.exists():
            with notebook(book, writing=False) as connection:
                known[sha] = programs.planned_steps(connection, sha)
        return known.get(sha, [])

    return look


@dataclass(frozen=True)
class Moment:
    """What the controller says at one moment, and the plan of its program if it is known."""

    status: dict[str, Any]
    planned: Planned

    @property
    def step(self) -> dict[str, Any]:
        """The plan of the present step; empty when it is not known."""
        number = self.status["step"]
        return self.planned[number - 1] if 0 < number <= len(self.planned) else {}

    @property
    def in_run(self) -> bool:
        """Is a run under way?"""
        return self.status["run"] > 0 and self.status["state"] not in _NO_RUN

    @property
    def passed_ms(self) -> int | None:
        """How long the present bath has lasted [ms]; None when nothing is being timed."""
        if self.status["state"] not in ("bath", "lift", "over", "judged"):
            return None
        return self.status["t"] - self.status["start"]


class Source:
    """Moments of a controller; comes back by itself when the cable was out."""

    def __init__(self, port: str | None, steps_of: Callable[[str], Planned]) -> None:
        self._port = port
        self._steps_of = steps_of
        self._channel: Channel = find.connect(port)

    def now(self) -> Moment:
        """The present moment. Raises LinkError."""
        status = self._channel.ask("status")
        return Moment(status, self._steps_of(str(status.get("sha", ""))))

    def moments(self) -> Iterator[Moment | str]:
        """Moments for ever; a text while the controller is away."""
        while True:
            try:
                yield self.now()
                time.sleep(POLL_S)
            except (PortError, SilentError) as error:
                yield str(error)
                time.sleep(AWAY_S)
                self._come_back()

    def _come_back(self) -> None:
        try:
            self._channel.close()
            self._channel = find.connect(self._port)
        except LinkError:
            # Still away: the next look says so again.
            return


def lines_of(moment: Moment) -> list[str]:
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
    elif status["state"] in ("lit", "focus lit"):
        lines.append(f"lamp ON for {light_text(status['gate_ms'])}")
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


def _rest(moment: Moment) -> str:
    """What is left of a light that a fault ended; of one that did not report its end nobody knows."""
    status = moment.status
    if moment.step.get("kind") != "light" or status["fault"] == states.LOST_GATE:
        return ""
    return f"{light_text(status['left_ms'])} of this light left"


def _where(moment: Moment) -> str:
    status = moment.status
    if not moment.in_run:
        return _OUTSIDE.get(status["state"]) or str(status["state"])
    name = moment.step.get("name", "")
    count = f" of {len(moment.planned)}" if moment.planned else ""
    said = f"sheet {status['sheet']}, step {status['step']}{count}" + (f": {name}" if name else "")
    return f"{said} – {status['state']}"


def _bath(moment: Moment) -> str:
    planned_ms = moment.step.get("time_ms") or moment.step.get("most_ms")
    passed = _clock(moment.passed_ms or 0)
    return f"{passed} of {_clock(planned_ms)}" if planned_ms else passed


def _clock(span_ms: int) -> str:
    minutes, seconds = divmod(span_ms // 1000, 60)
    return f"{minutes}:{seconds:02d}"


def _told(moment: Moment) -> tuple[Any, ...]:
    """What must change for a new line to be printed: not the clock."""
    status = moment.status
    keys = ("state", "run", "sheet", "step", "white", "fault", "left_ms", "gate_ms")
    return tuple(status.get(key) for key in keys)


def _changes(source: Source, once: bool) -> Iterator[Moment | str]:
    if once:
        yield source.now()
        return
    last: object = None
    for moment in source.moments():
        told = moment if isinstance(moment, str) else _told(moment)
        if told != last:
            last = told
            yield moment


def print_changes(source: Source, once: bool) -> None:
    """One JSON line for each change."""
    for moment in _changes(source, once):
        value = (
            {"away": moment} if isinstance(moment, str) else moment.status | {"name": moment.step.get("name")}
        )
        click.echo(json.dumps(value))


def _as_dict(moment: Moment) -> dict[str, Any]:
    return moment.status | {"name": moment.step.get("name")}


def print_lines(source: Source, once: bool) -> None:
    """Plain lines for each change."""
    for moment in _changes(source, once):
        click.echo(moment if isinstance(moment, str) else "; ".join(lines_of(moment)))
