"""`footlight paper found`"""

import time
from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.cli.types import Quantity


@click.command("found")
@click.argument("name")
@click.argument("note", nargs=-1)
@click.option(
    "--speed",
    metavar="INDEX",
    type=Quantity("index", "footlight.written.camera"),
    help="Exposure index in the camera: '4'.",
)
@click.option(
    "--pre-flash",
    "pre_flash",
    metavar="STOPS",
    type=Quantity("parse_stops"),
    help="Threshold, against the reference of the pre-flash setup: '-1/3 stop'.",
)
@click.option(
    "--second",
    metavar="STOPS",
    type=Quantity("parse_stops"),
    help="Second exposure, against the reference of the light setup: '+1/4 stop'.",
)
@click.option("--setup", default="", help="The light setup that these stops are for.")
@notebook_option
@json_option
def command(
    name: str,
    note: tuple[str, ...],
    speed: float | None,
    pre_flash: float | None,
    second: float | None,
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
    from footlight.actions.note_paper import note_paper
    from footlight.notebook.stock.papers import Finding

    said = [
        Finding("speed", speed),
        Finding("pre-flash", pre_flash, setup),
        Finding("second", second, setup),
        Finding("note", text=" ".join(note)),
    ]
    findings = [finding for finding in said if finding.value is not None or finding.text]
    note_paper(book, name, findings, int(time.time()))
    if as_json:
        told = [{"kind": finding.kind, "value": finding.value} for finding in findings]
        print_json({"paper": name, "found": told})
        return
    for finding in findings:
        click.echo(f"paper {name}, {finding.kind}: {finding.text or f'{finding.value:.3g}'}")
    hint("Take it back with 'footlight undo'.")
