"""Pictures of a sheet are kept in the notebook, and written back into files."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from footlight import whole_file
from footlight.notebook.book import notebook
from footlight.notebook.sheets import by_number, pictures
from footlight.notebook.sheets.pictures import Made


@dataclass(frozen=True)
class AttachedPicture:
    """A picture, small and upright. is_new: it was not kept already."""

    made: Made
    is_new: bool


def attach_pictures(
    book: Path, number: int, files: Sequence[Path], now_s: int, controller: str | None = None
) -> list[AttachedPicture]:
    """Keep pictures of a sheet, all or none; what is kept already is not kept twice.

    controller: whose sheet, where several have one of the number. Raises InputError for a file that is no
    picture, NotebookError for a sheet that the notebook has not.
    """
    made = [pictures.make(path) for path in files]
    with notebook(book, writing=True, making=False) as connection:
        sheet = by_number.find(connection, number, controller)
        new = pictures.without_kept(connection, sheet["id"], made)
        if new:
            pictures.attach(connection, sheet, new, now_s)
    return [AttachedPicture(picture, picture in new) for picture in made]


def write_picture(
    book: Path, number: int, target: Path, which: int | None = None, controller: str | None = None
) -> int:
    """Write a picture of a sheet into a new file, JPEG -> its bytes. which: None for the last.

    Raises InputError where there is such a file, NotebookError for a picture that the notebook has not.
    """
    data = picture_data(book, number, which, controller)
    with whole_file.whole(target) as part:
        part.write_bytes(data)
    return len(data)


def picture_data(book: Path, number: int, which: int | None = None, controller: str | None = None) -> bytes:
    """A picture of a sheet, JPEG. which: None for the last. Raises NotebookError without it."""
    with notebook(book, writing=False) as connection:
        return pictures.data_of(connection, by_number.find(connection, number, controller), which)
