"""`footlight read eye`"""

import math

import click

from footlight import quantities as q
from footlight.cli.light import printing
from footlight.cli.read import doses


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
@click.option("--repeat", metavar="STOPS", help="How far your strips differ from each other, if measured.")
@doses.options
@printing.as_json
def command(
    first_full: int, last_clean: int, anchor: bool, repeat: str | None, as_json: bool, **given
) -> None:
    """Judge the wet strip under white light, the same evening; steps are counted from 1 behind the zero step.

    The rule is that of a scan, with wider limits: half a step, and one step of doubt. Wet blacks look fuller
    than dry ones; a scan of the dry strip settles it.

    \b
        footlight read eye --first-full 3 --last-clean 7 --present "8 s" --centre "8 s" \\
            --step "1/3 stop" --steps 9
    """
    from footlight.strips import by_eye, words

    totals = doses.totals_s(given["doses"], given["centre"], given["step"], given["count"])
    present_s = q.parse_seconds(given["present"], "--present", least_s=0.01)
    stops = [math.log2(total / present_s) for total in totals[1:-1]]
    answers = by_eye.Answers(first_full, last_clean, anchor)
    known = None if repeat is None else q.parse_stops(repeat, "--repeat", least=0, most=3)
    decision, full, clean = by_eye.read(answers, stops, known)
    if as_json:
        printing.say_json(by_eye.as_dict(decision, full, clean, present_s))
        return
    printing.say(words.advice(decision, full, clean, present_s), () if anchor else (by_eye.WEAK_ANCHOR,))
