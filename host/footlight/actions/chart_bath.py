"""What the prints showed, against use and age of the baths of a name: as figures, or drawn."""

from pathlib import Path

from footlight.actions.list_baths import no_bath
from footlight.baths.charted import Point, points
from footlight.baths.condition import Condition, shelf
from footlight.notebook.book import notebook


def chart_bath(book: Path, name: str, now_s: int, picture: Path | None, replacing: bool) -> list[Point]:
    """The figures of all baths of that name; drawn into `picture` too, if one is named.

    Raises NotebookError where no bath has the name, InputError for a picture that cannot be written.
    """
    if picture is not None:
        # Before anything is reckoned: a name that does not do is said at once.
        from footlight.report.sheet_of_graphs import check_name

        check_name(picture, replacing)
    with notebook(book, writing=False) as connection:
        standing = shelf(connection, now_s, [name])
        if not standing.conditions:
            raise no_bath(name)
        charted = points(connection, standing, name)
    if picture is not None:
        _draw(name, charted, standing.conditions[-1], picture)
    return charted


def _draw(name: str, charted: list[Point], last: Condition, picture: Path) -> None:
    from footlight.report.chart_bath import Ends, draw

    limits = last.known.limits if last.known else None
    ends = Ends(limits.sheets_per_l, limits.tray_h) if limits else Ends(None, None)
    draw(f"{name}: what its prints showed", charted, ends, picture)
