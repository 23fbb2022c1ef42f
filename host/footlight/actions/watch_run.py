"""Follow a run: the controller's status, asked for again and again. It changes nothing there."""

import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from footlight.link import find
from footlight.link.channel import Channel
from footlight.link.errors import LinkError, PortError, SilentError
from footlight.notebook.book import notebook
from footlight.notebook.journal import programs

_NO_RUN = ("idle", "pick", "done", "focus", "focus lit")
POLL_S = 0.2
AWAY_S = 1.0

PlannedSteps = list[dict[str, Any]]


def plans_in(book: Path) -> Callable[[str], PlannedSteps]:
    """A function that gives the steps of a program by its hash, as far as the notebook knows it."""

    known: dict[str, PlannedSteps] = {}

    def look(sha: str) -> PlannedSteps:
        if sha not in known and sha and book.exists():
            with notebook(book, writing=False) as connection:
                known[sha] = programs.planned_steps(connection, sha)
        return known.get(sha, [])

    return look


@dataclass(frozen=True)
class RunStatus:
    """What the controller says at one moment, and the plan of its program if it is known."""

    status: dict[str, Any]
    planned: PlannedSteps

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

    def __init__(self, port: str | None, steps_of: Callable[[str], PlannedSteps]) -> None:
        self._port = port
        self._steps_of = steps_of
        self._channel: Channel = find.connect(port)

    def now(self) -> RunStatus:
        """The present moment. Raises LinkError."""
        status = self._channel.ask("status")
        return RunStatus(status, self._steps_of(str(status.get("sha", ""))))

    def moments(self) -> Iterator[RunStatus | str]:
        """Moments for ever; a text while the controller is away."""
        while True:
            try:
                yield self.now()
                time.sleep(POLL_S)
            except (PortError, SilentError) as error:
                yield str(error)
                time.sleep(AWAY_S)
                self._come_back()

    def close(self) -> None:
        """Give the port back."""
        self._channel.close()

    def _come_back(self) -> None:
        try:
            self._channel.close()
            self._channel = find.connect(self._port)
        except LinkError:
            # Still away: the next look says so again.
            return


def _shown(moment: RunStatus) -> tuple[Any, ...]:
    """What must change for a moment to be another one: not the clock."""
    status = moment.status
    keys = ("state", "run", "sheet", "step", "white", "fault", "left_ms", "gate_ms")
    return tuple(status.get(key) for key in keys)


def changes(source: Source, once: bool = False) -> Iterator[RunStatus | str]:
    """The present moment, then each that differs from the last in more than its clock; a text while the
    controller is away."""
    if once:
        yield source.now()
        return
    last: object = None
    for moment in source.moments():
        shown = moment if isinstance(moment, str) else _shown(moment)
        if shown != last:
            last = shown
            yield moment


def watch_run(book: Path, port: str | None = None) -> Source:
    """The moments of the controller at `port`, or of the only one, with the plans that the notebook knows.

    Raises LinkError.
    """
    return Source(port, plans_in(book))
