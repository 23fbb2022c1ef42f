"""`footlight attach`: pictures of a sheet."""

import time
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.cli.types import FROM_1

if TYPE_CHECKING:
    from footlight.notebook.sheets.pictures import Made


@click.command("attach")
@click.argument("number", type=FROM_1)
@click.argument("files", nargs=-1, type=click.Path(path_type=Path), metavar="[FILE]...")
@click.option(
    "--out", type=click.Path(path_type=Path, dir_okay=False), help="Write it back into this new file."
)
@click.option("--which", type=FROM_1, help="With --out: the first, the second ... Without it: the last.")
@click.option("--controller", help="Which controller's, if several have a sheet of that number.")
@notebook_option
@json_option
def command(
    number: int,
    files: tuple[Path, ...],
    out: Path | None,
    which: int | None,
    controller: str | None,
    book: Path,
    as_json: bool,
) -> None:
    """Keep pictures of sheet NUMBER in the notebook: PNG, JPEG or TIFF files.

    A picture is turned upright and made small (at most 1600 pixels a side, 400 KiB); place, date and camera
    that the file may tell are left out. Keep your scans: the notebook keeps what is enough to recognise a
    print.

    \b
    Example:
      footlight attach 41 print-41.jpg
      footlight attach 41 --out shown-again.jpg
    """
    from footlight.errors import InputError
    from footlight.notebook.book import notebook
    from footlight.notebook.sheets import by_number, pictures

    if bool(files) == bool(out):
        raise InputError(f"sheet {number}: name a picture to keep, or with --out a file to write one into")
    if out:
        _write_back(number, out, which, controller, book, as_json)
        return
    made = [pictures.make(path) for path in files]
    with notebook(book, writing=True, making=False) as connection:
        sheet = by_number.find(connection, number, controller)
        new = pictures.without_kept(connection, sheet["id"], made)
        if new:
            pictures.attach(connection, sheet, new, int(time.time()))
    if as_json:
        print_json({"sheet": number, "kept": [{"name": one.name, "bytes": len(one.data)} for one in new]})
        return
    _tell(number, made, new)


def _tell(number: int, made: "Sequence[Made]", new: "Sequence[Made]") -> None:
    for one in made:
        kept = f"kept, {len(one.data) / 1024:.0f} KiB" if one in new else "is kept already"
        click.echo(f"sheet {number}: {one.name} {kept}")
    if new:
        hint("Take it back with 'footlight undo'.")


def _write_back(
    number: int, out: Path, which: int | None, controller: str | None, book: Path, as_json: bool
) -> None:
    from footlight import whole_file
    from footlight.notebook.book import notebook
    from footlight.notebook.sheets import by_number, pictures

    with notebook(book, writing=False) as connection:
        data = pictures.data_of(connection, by_number.find(connection, number, controller), which)
    with whole_file.whole(out) as part:
        part.write_bytes(data)
    if as_json:
        print_json({"sheet": number, "file": str(out), "bytes": len(data)})
    else:
        click.echo(f"{out}: {len(data)} bytes, JPEG")
