"""What the notebook says of the baths of a sequence that is about to be run: for `plan`, `send`, `collect`.

Where there is no notebook, nothing is said and nothing is waited for.
"""

from collections.abc import Iterable
from pathlib import Path
from textwrap import wrap
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from footlight.baths.forecast import Forecast, Outlook
    from footlight.sequence import Compiled

_WIDTH = 100


def baths_ahead(compiled: "Compiled", book: Path, now_s: int) -> "Forecast | None":
    """The forecast, None without a notebook, without a bath that could be used up, or with a notebook that
    cannot be read, which is said: a plan does not fail for it."""
    from footlight.baths.forecast import counted, forecast
    from footlight.errors import FootlightError

    names = [tray.name for tray in counted(compiled.sequence.trays)]
    if not names or not book.is_file():
        return None
    from footlight.baths.condition import shelf
    from footlight.notebook.book import notebook

    try:
        with notebook(book, writing=False) as connection:
            return forecast(compiled, shelf(connection, now_s, names))
    except FootlightError as error:
        click.echo(f"note: the baths are not known: {error}", err=True)
        return None


def section(found: "Forecast") -> list[str]:
    """The baths as a section of a plan: each as it is, then what to do."""
    from footlight.sequence.plan import columns

    rows = [("", "in tray", "through it", "good for", "state")]
    rows += [_row(one) for one in found.outlooks]
    lines = columns(rows) if found.outlooks else []
    sentences = [*found.warnings, found.unknown_text or ""]
    lines += [line for text in sentences for line in wrap(text, _WIDTH, subsequent_indent="  ")]
    return ["", "Baths, from the notebook", *(f"  {line}" for line in lines)]


def notes(found: "Forecast | None") -> list[str]:
    """Only what is to be done, a sentence each."""
    if found is None:
        return []
    return [*found.warnings, *([found.unknown_text] if found.unknown_text else [])]


def after_run(book: Path, controller: str, runs: Iterable[int], now_s: int) -> list[str]:
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


def _row(one: "Outlook") -> tuple[str, ...]:
    from footlight.quantities.age import format_age_h

    condition = one.condition
    return (
        one.tray,
        format_age_h(condition.age_h),
        f"{condition.used_8x10:.3g} of 8x10",
        one.good_for or "not known",
        condition.state or "limits not known",
    )
