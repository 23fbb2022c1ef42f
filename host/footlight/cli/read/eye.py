"""`footlight read eye`"""

import math
from typing import Any

import click

from footlight import quantities as q
from footlight.cli.options import json_option, print_json, say
from footlight.cli.read import doses, keeping


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
    from footlight.strips.judge import by_eye

    dosed = doses.of_strip(given)
    stops = [math.log2(total / dosed.present_s) for total in dosed.totals_s[1:-1]]
    answers = by_eye.Answers(first_full, last_clean, anchor)
    known = None if repeat is None else q.parse_stops(repeat, "--repeat", least=0, most=3)
    decision, full, clean = by_eye.read(answers, stops, known)
    told = by_eye.as_dict(decision, full, clean, dosed.present_s) | _judged(answers, dosed)
    kept = _keep(told, dosed, given) if keeping.wanted(given) else None
    if as_json:
        print_json(told)
        return
    say(told["words"], told["notes"])
    say(keeping.taken_lines(dosed))
    if kept is not None:
        click.echo(keeping.said(kept, given["sheet"]))


def _judged(answers, dosed: doses.Dosed) -> dict[str, Any]:
    """What was answered, and what was taken from the notebook."""
    import msgspec

    return {
        "first_full": answers.first_full,
        "last_clean": answers.last_clean,
        "clean_anchor": answers.clean_anchor,
        "present_s": dosed.present_s,
        "totals_s": dosed.totals_s,
        "taken": msgspec.to_builtins(dosed.given.taken) if dosed.given else None,
    }


def _keep(told: dict[str, Any], dosed: doses.Dosed, given: dict) -> int:
    import json

    dose_s = told["dose_s"]
    entry = keeping.entry("eye", json.dumps(told, ensure_ascii=False), dosed, dose_s)
    sheet = f", sheet {given['sheet']}" if given["sheet"] else ""
    dose = "no safe dose" if dose_s is None else f"give {q.format_seconds(dose_s)}"
    return keeping.keep(given["book"], entry, f"strip read by eye{sheet}: {dose}")
