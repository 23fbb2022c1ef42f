"""`footlight read eye`"""

import click

from footlight.cli.options import json_option, print_json, say
from footlight.cli.read import options


@click.command
@click.option(
    "--first-full",
    type=int,
    required=True,
    help="First step whose black equals its neighbour's beyond; 0: none.",
)
@click.option(
    "--last-clean", type=int, required=True, help="Last step whose white equals the zero step's; 0: none."
)
@click.option(
    "--anchor/--no-anchor", default=True, show_default=True, help="Is the anchor an even, full black?"
)
@options.repeat
@options.doses
@json_option
def command(
    first_full: int, last_clean: int, anchor: bool, repeat: str | None, as_json: bool, **given
) -> None:
    """Judge the wet strip under white light, the same evening; steps are counted from 1 behind the zero step.

    The rule is that of a scan, with wider limits: half a step, and one step of doubt. Wet blacks look fuller
    than dry ones; a scan of the dry strip settles it. With --sheet the doses are those really given, and the
    reading is kept.

    \b
        footlight read eye --first-full 3 --last-clean 7 --sheet 41
        footlight read eye --first-full 3 --last-clean 7 --present "8 s" --centre "8 s" \\
            --step "1/3 stop" --steps 9
    """
    from footlight.actions.read_by_eye import Answers, read_by_eye
    from footlight.views import strip_readings

    read = read_by_eye(
        Answers(first_full, last_clean, anchor),
        options.doses_of(given),
        options.repeat_of(repeat),
        options.keeping_of(given),
    )
    if as_json:
        print_json(read.result)
        return
    say(read.result["words"], read.result["notes"])
    say(strip_readings.taken_lines(read.doses.taken))
    say(strip_readings.kept_lines(read.kept, given["sheet"]))
