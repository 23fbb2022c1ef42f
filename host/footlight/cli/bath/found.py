"""`footlight bath found`"""

from pathlib import Path

import click

from footlight.cli.bath import options
from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.cli.types import Quantity


@click.command
@click.argument("name")
@click.argument("note", nargs=-1)
@click.option(
    "--clearing",
    metavar="TIME",
    type=Quantity("parse_seconds", least_s=1, most_s=3600),
    help="How long clearing or bleaching took: '95 s'.",
)
@click.option(
    "--temperature",
    metavar="TEMPERATURE",
    type=Quantity("parse_temperature_c"),
    help="Of the bath: '20 °C'.",
)
@click.option(
    "--topped",
    metavar="VOLUME",
    type=Quantity("parse_volume_ml"),
    help="Topped up with fresh working solution: '100 ml'.",
)
@click.option(
    "--sheets",
    metavar="N",
    type=Quantity("parse_number", least=0.1, most=1000),
    help="Your own capacity: sheets of 8x10, each visit counted.",
)
@click.option(
    "--hours",
    metavar="N",
    type=Quantity("parse_number", least=0.1, most=1000),
    help="Your own limit of hours in the open tray.",
)
@options.at
@notebook_option
@json_option
def command(
    name: str, note: tuple[str, ...], at_s: int, book: Path, as_json: bool, **values: float | None
) -> None:
    """What was found out about the bath NAME that is in use; a NOTE in your words needs no quotes.

    The first clearing time written is the fresh one. Without any, the steps judged by eye in its tray are
    taken. Your own capacity holds for later baths of the same name and formula too, by volume.

    \b
        footlight bath found bleach --clearing "95 s"
        footlight bath found developer --temperature "21 °C" brown already, but works
        footlight bath found bleach --sheets 6 --hours 3
    """
    from footlight.actions.note_bath import note_bath
    from footlight.views.baths import in_words

    said = {kind: value for kind, value in values.items() if value is not None}
    bath, findings = note_bath(book, name, said, " ".join(note), at_s, options.now_s())
    if as_json:
        print_json({"name": bath.name, "id": bath.id, "found": [vars(finding) for finding in findings]})
        return
    for finding in findings:
        click.echo(f"{bath.name}: {in_words(finding)}")
    hint("Take it back with 'footlight undo'.")
