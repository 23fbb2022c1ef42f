"""Rule I17, for steps: what was begun and finished is not offered again after a cut at rest."""

from collections.abc import Callable
from typing import Any

Breach = Callable[[str, str], None]
AT_REST_US = 200_000
# Pages that stand for no step.
_WORDS = frozenset(
    ("PENCIL", "DONE", "CUT", "WAIT", "COOL", "SHORT", "HASH", "LAST", "BRIGHT", "FOCUS", "NO", "PAPER")
)


def telling_pages(program: dict[str, Any]) -> dict[str, int]:
    """Pages that name one step of the program and nothing else -> its number."""
    steps = program["steps"]
    shows = [step.get("show", "") for step in steps]
    cues = {str(show) for step in steps for _, show in step.get("cues", ())}
    others = cues | _WORDS | {program.get("title", ""), *(lamp["name"] for lamp in program.get("lamps", ()))}
    others |= {str(step.get(key)) for step in steps for key in ("lens", "stop", "place", "tongs")}
    telling = {show for show in shows if shows.count(show) == 1} - others
    return {show: number for number, show in enumerate(shows, 1) if show in telling}


class SheetProgress:
    """Which steps of the sheet under way are finished, by the journal and, apart from it, by the display."""

    def __init__(self, breach: Breach) -> None:
        self._breach = breach
        self._finished: dict[int, set[int]] = {}
        self._ended: set[int] = set()
        self._went_back: set[int] = set()
        self._pages: dict[str, int] = {}
        self._shown = 0
        self._shown_us = 0
        self._rested = 0  # the step that stood on the display, at rest, when the power went
        self._told = 0  # the step that was broken off, by the journal

    def arm(self, program: dict[str, Any] | None) -> None:
        """A run begins; None = a program that did not pass over the cable."""
        self._pages = telling_pages(program) if program else {}
        self._shown = self._rested = 0

    def finish(self, sheet: int, step: int) -> None:
        """The record that a step is over is durable."""
        self._finished.setdefault(sheet, set()).add(step)

    def begin(self, sheet: int, step: int) -> None:
        """The record that a step begins is durable."""
        if step in self._finished.get(sheet, ()):
            self._breach("I17", f"step {step} of sheet {sheet} was finished, and begins again")
        self._went_back.discard(sheet)

    def move(self, sheet: int, step: int) -> None:
        """The record that the run was taken to a step: to a finished one only a person takes it."""
        if step in self._finished.get(sheet, ()) and sheet not in self._went_back:
            self._breach("I17", f"step {step} of sheet {sheet} was finished, and is gone back to by nobody")
        # Whatever came after it comes once more, also what was skipped on the way back.
        self._finished[sheet] = {before for before in self._finished.get(sheet, ()) if before < step}
        self._shown = 0

    def offer(self, sheet: int, step: int) -> None:
        """Light is offered for it: whether that may be is judged by the light."""
        self._finished.get(sheet, set()).discard(step)
        self._went_back.discard(sheet)

    def end(self, run: int) -> None:
        """The record that a run is over is durable."""
        self._ended.add(run)

    def go_back(self, sheet: int) -> None:
        """A person chose to go back, or the sheet once more."""
        self._finished.pop(sheet, None)
        # What is still written of the step that is left comes after the choice.
        self._went_back.add(sheet)
        self._shown = self._rested = 0

    def show(self, text: str, t_us: int) -> None:
        """A page of the display, of a run that is not broken off."""
        step = self._pages.get(text)
        if text == "PENCIL":
            self._shown = 0  # the next sheet of a batch, or the same once more
        elif step and step != self._shown:
            self._shown, self._shown_us = step, t_us

    def lose_power(self, t_us: int) -> None:
        """The power has gone, or the firmware starts anew."""
        if self._shown and t_us - self._shown_us >= AT_REST_US:
            self._rested = self._shown
        self._shown = self._told = 0

    def come_back(self, run: int, sheet: int, step: int) -> None:
        """After a start the journal says which step was broken off."""
        self._told = step
        if step in self._finished.get(sheet, ()):
            self._breach("I17", f"step {step} of sheet {sheet} was finished, and is taken for broken off")
        if run in self._ended:
            self._breach("I17", f"run {run} had ended, and is taken for broken off at step {step}")

    def show_cut(self, step: int) -> None:
        """The display says at which step the run comes back."""
        if step != self._told:
            told = f"step {self._told}" if self._told else "none"
            self._breach("I17", f"the display is back at step {step}, the journal at {told}")
        if step < self._rested:
            rested = f"step {self._rested} stood on the display, at rest"
            self._breach("I17", f"{rested}, and the run is back at {step}")
        self._rested = 0
