"""`footlight attach`: pictures of a sheet."""

import time
from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.cli.types import FROM_1


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
    from footlight.actions.attach_pictures import attach_pictures
    from footlight.errors import InputError

    if bool(files) == bool(out):
        raise InputError(f"sheet {number}: name a picture to keep, or with --out a file to write one into")
    if out:
        _write_back(number, out, which, controller, book, as_json)
        return
    attached = attach_pictures(book, number, files, int(time.time()), controller)
    new = [picture.made for picture in attached if picture.is_new]
    if as_json:
        print_json({"sheet": number, "kept": [{"name": made.name, "bytes": len(made.data)} for made in new]})
        return
    for picture in attached:
        kept = f"kept, {len(picture.made.data) / 1024:.0f} KiB" if picture.is_new else "is kept already"
        click.echo(f"sheet {number}: {picture.made.name} {kept}")
    if new:
        hint("Take it back with 'footlight undo'.")


def _write_back(
    number: int, out: Path, which: int | None, controller: str | None, book: Path, as_json: bool
) -> None:
    from footlight.actions.attach_pictures import write_picture

    size = write_picture(book, number, out, which, controller)
    if as_json:
        print_json({"sheet": number, "file": str(out), "bytes": size})
    else:
        click.echo(f"{out}: {size} bytes, JPEG")
