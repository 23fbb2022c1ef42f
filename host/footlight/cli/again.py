"""`footlight again`: a print once more, as it was or with a change."""

import time
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from footlight.cli.options import json_option, notebook_option, port_option, print_json
from footlight.cli.types import FROM_1

if TYPE_CHECKING:
    from footlight.actions.repeat_print import Change
    from footlight.sequence.again import Wish

# What was asked for, as the file that is written says it of itself.
_WORDS = {
    "second": "second exposure",
    "light": "light",
    "size": "size",
    "height": "height",
    "stop": "stop",
}


@click.command("again")
@click.argument("number", type=FROM_1)
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False), required=False)
@click.option("--second", metavar="STOPS", help="More light, or less: '+1/3 stop', '-0.5'.")
@click.option(
    "--light", metavar="NAME", help="Which light is meant: its name or number; 'all' for every one."
)
@click.option("--size", metavar="SIZE", help="The same on another size, as '8x10'; the height stays.")
@click.option(
    "--higher", is_flag=True, help="With --size: go up until its corners are as even, if the column does."
)
@click.option(
    "--from", "from_size", metavar="SIZE", help="The size that it was, if the sequence does not say."
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
    from footlight.actions.repeat_print import repeat_print, send_repeat
    from footlight.views.repeat import repeat_dict, repeat_lines

    target, now_s = file or Path(f"again-{number}.toml"), int(time.time())
    repeat = repeat_print(
        number,
        target,
        book,
        now_s,
        _change(options),
        controller=options["controller"],
        replacing=options["replace"],
    )
    if options["send"]:
        repeat = send_repeat(repeat, book, now_s, options["port"])
    if as_json:
        print_json(repeat_dict(repeat))
        return
    for line in repeat_lines(repeat):
        click.echo(line)


def _change(options: Mapping[str, Any]) -> "Change":
    from footlight.actions.repeat_print import Change

    return Change(
        wish=_wish(options),
        as_given=options["as_given"],
        run=options["run"],
        setups=options["setups"],
        paper=options["paper"],
        words="; ".join(f"{word} {options[name]}" for name, word in _WORDS.items() if options[name]),
    )


def _wish(options: Mapping[str, Any]) -> "Wish":
    from footlight import quantities as q
    from footlight.errors import field
    from footlight.sequence.again import Wish

    def read(parse: Callable[[str, str], Any], name: str) -> Any:
        return parse(options[name], field(name)) if options[name] else None

    return Wish(
        light=options["light"],
        more_stops=read(q.parse_stops, "second") or 0.0,
        height_mm=read(q.parse_length_mm, "height"),
        stop=read(q.parse_stop, "stop"),
        sheet=read(q.parse_sheet, "size"),
        higher=options["higher"],
        old_sheet=read(q.parse_sheet, "from_size"),
    )
