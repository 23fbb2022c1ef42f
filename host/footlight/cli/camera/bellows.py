"""`footlight camera bellows`"""

import click

from footlight import quantities as q
from footlight.camera.extension import Extension
from footlight.camera.page import scale
from footlight.cli.camera import options
from footlight.cli.options import json_option, print_json, say
from footlight.errors import InputError
from footlight.light.uncertainty import Term


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
    out = options.extension(lens, draw, image, subject, pupils, options.tolerances(offs).draw_mm)
    if out.doubt is None:
        raise InputError("bellows: give --lens and --draw, or --image and --object")
    marked = q.parse_stop(stop, "--stop") if stop else None
    true = out.true_stop(marked).exact_value if marked else None
    plain_s = q.parse_seconds(seconds, "TIME", least_s=0.001) if seconds else None
    new_s = plain_s * out.factor if plain_s else None
    if as_json:
        rest = {"true_f_number": true and round(true, 3), "seconds": new_s and round(new_s, 4)}
        print_json(_as_dict(out, out.doubt) | rest)
        return
    doubt = f"± {out.doubt.stops:.2f} stop, from {out.doubt.cause} ({out.doubt.detail})"
    say([f"× {out.factor:.4g} ({q.format_stops(out.stops)}), {doubt}"])
    say([f"  {out.said}: {scale(out.magnification)}"])
    if true:
        say([f"  {marked} is really f/{true:.3g}"])
    if plain_s and new_s:
        say([f"  {q.format_seconds(plain_s)} → {q.format_seconds(new_s)}"])


def _as_dict(out: Extension, doubt: Term) -> dict[str, float]:
    return {
        "factor": round(out.factor, 4),
        "stops": round(out.stops, 4),
        "uncertainty_stops": round(doubt.stops, 4),
        "magnification": round(out.magnification, 4),
    }
