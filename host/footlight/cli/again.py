"""`footlight again`: a print once more, as it was or with a change."""

import time
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, port_option, print_json
from footlight.cli.whole_number import FROM_1


@click.command("again")
@click.argument("number", type=FROM_1)
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False), required=False)
@click.option("--second", "more", metavar="STOPS", help="More light, or less: '+1/3 stop', '-0.5'.")
@click.option(
    "--light", metavar="NAME", help="Which light is meant: its name or number; 'all' for every one."
)
@click.option("--size", metavar="SIZE", help="The same on another size, as '8x10': goes higher if it must.")
@click.option(
    "--from", "old_size", metavar="SIZE", help="The size that it was, if the sequence does not say."
)
@click.option("--height", metavar="LENGTH", help="Another height, lens pupil to sheet.")
@click.option("--stop", metavar="STOP", help="Another stop, as 'f/16'.")
@click.option(
    "--as-given/--as-planned",
    "as_given",
    default=None,
    help="What that sheet really had, or what was planned for it. Must be said where the light differed.",
)
@click.option("--run", type=FROM_1, help="Which run of the sheet. Without it: the last.")
@click.option(
    "--setups",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Light setups of today in this file, instead of those of then.",
)
@click.option(
    "--paper", metavar="NAME", help="The batch of paper that it will be. Without it: the last used."
)
@click.option("--replace", is_flag=True, help="Write over FILE and its light setups if they are there.")
@click.option("--send", is_flag=True, help="Send it to the controller at once.")
@click.option("--controller", help="Which controller's sheet, if several have one of that number.")
@port_option
@notebook_option
@json_option
def command(number: int, file: Path | None, book: Path, as_json: bool, **options) -> None:
    """Write a sequence that makes print NUMBER again, and say what has changed since.

    FILE is where to write it (without it: again-NUMBER.toml); the light setups of then are written beside it.
    Sequence and light setups are those that were sent for that print. Planned times are the default: they are
    what a good print was meant to have, without the second by which your foot was late. Where the light that
    the sheet got is not the light that was planned, you are asked which you want.

    \b
    Example:
      footlight again 41
      footlight again 41 --second "+1/3 stop"
      footlight again 41 --size 11x14 large-41.toml
    """
    from footlight.cli.again import making, told

    made = making.make(number, file or Path(f"again-{number}.toml"), book, int(time.time()), options)
    if options["send"]:
        made = making.send(made, options["port"], book, int(time.time()))
    if as_json:
        print_json(told.as_dict(made))
        return
    for line in told.lines(made):
        click.echo(line)
