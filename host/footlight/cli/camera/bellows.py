"""`footlight camera bellows`"""

import click

from footlight import quantities as q
from footlight.camera.extension import Extension
from footlight.cli.camera import options
from footlight.cli.options import json_option, print_json, say
from footlight.errors import field
from footlight.light.uncertainty import Term
from footlight.views import camera_sums
from footlight.written import camera as written


@click.command
@click.argument("seconds", required=False, metavar="[TIME]")
@click.option("--stop", metavar="STOP", help="Marked stop, to see what it really is.")
@options.racked
@options.offs
@json_option
def command(
    seconds: str | None,
    stop: str | None,
    lens: str | None,
    draw: str | None,
    image: str | None,
    subject: str | None,
    pupils: str,
    offs: tuple[str, ...],
    as_json: bool,
) -> None:
    """What a racked-out lens costs: factor and stops, and the new time where TIME is the one at infinity.

    From draw and focal length, or from the size of something on the ground glass and its own size.

    \b
        footlight camera bellows "8 s" --lens "12 in" --draw "18 in"
        footlight camera bellows --image "8 in" --object "12 in"
        footlight camera bellows --lens "150 mm" --draw "300 mm" --stop f/11
    """
    out = written.extension(lens, draw, image, subject, pupils, written.tolerances(offs).draw_mm)
    if out.doubt is None:
        raise camera_sums.not_racked()
    marked = q.parse_stop(stop, field("stop")) if stop else None
    plain_s = q.parse_seconds(seconds, field("seconds"), least_s=0.001) if seconds else None
    if as_json:
        true = out.true_stop(marked).exact_value if marked else None
        new_s = plain_s * out.factor if plain_s else None
        rest = {"true_f_number": true and round(true, 3), "seconds": new_s and round(new_s, 4)}
        print_json(_as_dict(out, out.doubt) | rest)
        return
    say(camera_sums.bellows_lines(out, out.doubt, marked, plain_s))


def _as_dict(out: Extension, doubt: Term) -> dict[str, float]:
    return {
        "factor": round(out.factor, 4),
        "stops": round(out.stops, 4),
        "uncertainty_stops": round(doubt.stops, 4),
        "magnification": round(out.magnification, 4),
    }
