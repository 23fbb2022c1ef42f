"""What the notebook says of the baths of a sequence that is about to be run, and of those of the last run.

Where there is no notebook, nothing is said and nothing is waited for: a plan begins fast.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from footlight.baths.forecast import Forecast
    from footlight.sequence import Compiled


@dataclass(frozen=True)
class BathsAhead:
    """forecast: None without a notebook, and without a bath that could be used up. trouble: why the notebook
    could not be read; a plan does not fail for it."""

    forecast: "Forecast | None" = None
    trouble: str = ""

    @property
    def warnings(self) -> list[str]:
        """The baths that do not last, a sentence each."""
        return self.forecast.warnings if self.forecast else []

    @property
    def notes(self) -> list[str]:
        """What is to be done or to be known, a sentence each."""
        if self.forecast is None:
            return [self.trouble] if self.trouble else []
        return [*self.forecast.warnings, *filter(None, [self.forecast.unknown_text])]


def forecast_baths(compiled: "Compiled", book: Path, now_s: int) -> BathsAhead:
    """Whether the baths last for this sequence. now_s: the computer's time [s since 1970]."""
    if not book.is_file():
        return BathsAhead()
    from footlight.baths.forecast import forecast
    from footlight.baths.trays import counted
    from footlight.errors import FootlightError

    names = [tray.name for tray in counted(compiled.sequence.trays)]
    if not names:
        return BathsAhead()
    from footlight.baths.condition import shelf
    from footlight.notebook.book import notebook

    try:
        with notebook(book, writing=False) as connection:
            return BathsAhead(forecast(compiled, shelf(connection, now_s, names)))
    except FootlightError as error:
        return BathsAhead(trouble=f"the baths are not known: {error}")


def spent_by_another(book: Path, controller: str, runs: Iterable[int], now_s: int) -> list[str]:
    """What one more sheet like that of the last of these runs would spoil, a sentence each."""
    last = max(runs, default=None)
    if last is None:
        return []
    from footlight.baths import planned
    from footlight.baths.condition import shelf
    from footlight.baths.forecast import of_next_sheet
    from footlight.notebook.book import notebook
    from footlight.notebook.journal import programs

    with notebook(book, writing=False) as connection:
        sha = programs.sha_of_run(connection, controller, last)
        plan = planned.of_source(programs.source(connection, sha))
        if plan is None:
            return []
        stands = shelf(connection, now_s, set(plan.trays) - plan.one_sheet)
        return of_next_sheet(stands, plan, programs.planned_steps(connection, sha))
