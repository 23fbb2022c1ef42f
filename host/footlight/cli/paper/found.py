"""`footlight paper found`"""

import time
from pathlib import Path

import click

from footlight import quantities as q
from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.errors import InputError

# kind, value, light setup, text, as `papers.note_findings` takes them
Finding = tuple[str, float | None, str, str]


@click.command("found")
@click.argument("name")
@click.argument("note", nargs=-1)
@click.option("--speed", metavar="INDEX", help="Exposure index in the camera: '4'.")
@click.option(
    "--pre-flash",
    "pre_flash",
    metavar="STOPS",
    help="Threshold, against the reference of the pre-flash setup: '-1/3 stop'.",
)
@click.option(
    "--second",
    metavar="STOPS",
    help="Second exposure, against the reference of the light setup: '+1/4 stop'.",
)
@click.option("--setup", default="", help="The light setup that these stops are for.")
@notebook_option
@json_option
def command(
    name: str,
    note: tuple[str, ...],
    speed: str | None,
    pre_flash: str | None,
    second: str | None,
    setup: str,
    book: Path,
    as_json: bool,
) -> None:
    """Write down what was found out about batch NAME; the last value of a kind holds, the others are kept.

    The index is what 'footlight expose' reckons with for sheets of this batch.

    \b
    Example:
      footlight paper found A --speed 4
      footlight paper found A --second "+1/4 stop" --setup "enlarger at 620"
      footlight paper found A curls more than the last box
    """
    from footlight.notebook.book import notebook
    from footlight.notebook.stock import papers

    stops = {"pre-flash": pre_flash, "second": second}
    found = [*_speed(speed), *_stops(stops, setup), *([("note", None, "", " ".join(note))] if note else [])]
    if not found:
        raise InputError(f"paper {name}: nothing to write; give --speed, --pre-flash, --second or a note")
    with notebook(book, writing=True, making=False) as connection:
        batch = papers.find(connection, name)
        papers.note_findings(connection, batch, found, int(time.time()))
    if as_json:
        print_json({"paper": name, "found": [{"kind": kind, "value": value} for kind, value, _, _ in found]})
        return
    for kind, value, _, text in found:
        click.echo(f"paper {name}, {kind}: {text or f'{value:.3g}'}")
    hint("Take it back with 'footlight undo'.")


def _speed(written: str | None) -> list[Finding]:
    from footlight.cli.camera.written import index

    return [("speed", index(written, "--speed"), "", "")] if written else []


def _stops(written: dict[str, str | None], setup: str) -> list[Finding]:
    return [(kind, q.parse_stops(stops, f"--{kind}"), setup, "") for kind, stops in written.items() if stops]
