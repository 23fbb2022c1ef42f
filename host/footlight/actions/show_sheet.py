"""The whole life of a sheet, as the notebook tells it."""

from dataclasses import dataclass
from pathlib import Path

from footlight.notebook.book import notebook
from footlight.notebook.sheets import by_number
from footlight.notebook.sheets import life as lives
from footlight.notebook.sheets.by_number import Story
from footlight.notebook.sheets.life import Life


@dataclass(frozen=True)
class ShownSheet:
    """A sheet. story: its runs, planned against given; life: paper, camera, baths, readings, words."""

    story: Story
    life: Life


def show_sheet(
    book: Path,
    number: int,
    controller: str | None = None,
    picture: Path | None = None,
    replacing: bool = False,
) -> ShownSheet:
    """Everything about a sheet; the time line of its last run is drawn into `picture`, if one is named.

    controller: whose sheet, where several have one of the number. Raises NotebookError where there is none,
    InputError for a picture that cannot be written.
    """
    if picture is not None:
        # Before anything is looked up: a name that does not do is said at once.
        from footlight.report.sheet_of_graphs import check_name

        check_name(picture, replacing)
    with notebook(book, writing=False) as connection:
        story = by_number.story(connection, by_number.find(connection, number, controller))
        if picture is not None:
            from footlight.actions.draw_run import draw_last_run

            draw_last_run(connection, story, picture)
        return ShownSheet(story, lives.of_sheet(connection, story))
