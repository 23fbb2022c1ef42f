"""`footlight read kept`"""

from pathlib import Path

import click

from footlight.cli.options import (
    json_option,
    notebook_option,
    print_json,
    replace_option,
    say,
    terminal_width,
)
from footlight.cli.read import options


@click.command("kept")
@click.argument("reading", type=click.IntRange(1), required=False)
@click.option("--picture", type=click.Path(path_type=Path), help="Write its picture into this file: .png.")
@replace_option
@notebook_option
@json_option
def command(reading: int | None, picture: Path | None, replace: bool, book: Path, as_json: bool) -> None:
    """The readings that were kept, the newest first; or one of them, by its number, as it was.

    \b
        footlight read kept
        footlight read kept 3 --picture strip.png
    """
    from footlight.actions.find_readings import find_readings
    from footlight.views import strip_readings

    page = options.report_of({"picture": picture, "replace": replace}, "picture")
    kept = find_readings(book, reading, page)
    if as_json:
        print_json([strip_readings.kept_as_dict(reading) for reading in kept])
        return
    say(strip_readings.list_lines(kept, terminal_width()))
    say(strip_readings.advice_lines(kept[0]) if reading else [])
