"""`footlight light dose`"""

import click

from footlight import quantities as q
from footlight.cli.options import json_option, print_json
from footlight.errors import InputError
from footlight.light.dose import Bridge, Dose, carried, doubt, measured
from footlight.light.uncertainty import Budget
from footlight.written import light as written


@click.command
@click.argument("found")
@click.argument("now", required=False)
@click.option(
    "--bridge",
    nargs=2,
    metavar="DOSE DOSE",
    help="A bridging strip: the two doses that gave one grey, each with its lamp or filter.",
)
@json_option
def command(found: str, now: str | None, bridge: tuple[str, str] | None, as_json: bool) -> None:
    """Lux-seconds of an exposure, and the time that gives them under another reading.

    FOUND is a time and a meter reading, or a dose; NOW is the reading where it is to be given. A meter
    does not see as paper does: across lamps or filters only a bridging strip tells.

    \b
        footlight light dose "6 s, 12 lx"
        footlight light dose "6 s, 12 lx" "8.5 lx"
        footlight light dose "72 lx s" "30 lx, lamp bulb" --bridge "60 lx s" "90 lx s, lamp bulb"
    """
    dose = _dose(found, "FOUND")
    if now is None:
        _say(dose, None, as_json)
        return
    here = written.parts(now, "NOW")
    if here.lux is None:
        raise InputError(f"NOW: '{now}' has no meter reading; write for example '8.5 lx'")
    joined = Bridge(_dose(bridge[0], "--bridge"), _dose(bridge[1], "--bridge")) if bridge else None
    there = carried(dose, here.lamp or written.THE_LAMP, here.filter, joined)
    _say(there, there.lux_s / here.lux, as_json, doubt(joined if there is not dose else None))


def _dose(text: str, what: str) -> Dose:
    said = written.parts(text, what)
    lamp = said.lamp or written.THE_LAMP
    if said.dose_lux_s is not None:
        return Dose(said.dose_lux_s, lamp, said.filter)
    if said.seconds is not None and said.lux is not None:
        return measured(said.seconds, said.lux, lamp, said.filter)
    raise InputError(f"{what}: '{text}' is no dose; write '72 lx s', or a time and a reading as '6 s, 12 lx'")


def _say(dose: Dose, seconds: float | None, as_json: bool, off: Budget | None = None) -> None:
    if as_json:
        said: dict[str, object] = {"dose_lux_s": round(dose.lux_s, 4)}
        if seconds is not None and off is not None:
            said |= {"seconds": round(seconds, 4), "uncertainty": off.as_dict()}
        print_json(said)
        return
    click.echo(f"{dose}" if seconds is None else f"{q.format_seconds(seconds)} {off}: {dose} of {dose.light}")
