"""`footlight camera opening`"""

import click

from footlight import quantities as q
from footlight.camera.extension import INFINITY, from_draw, opening
from footlight.cli.camera import options
from footlight.cli.options import json_option, print_json, say
from footlight.light.uncertainty import Budget
from footlight.quantities import FStop
from footlight.written import camera as written


@click.command
@click.argument("lens")
@click.argument("diameter")
@click.option("--draw", metavar="LENGTH", help="Lens board to film; without it the lens is at infinity.")
@click.option("--pupils", metavar="RATIO", default="1", show_default=True, help="Pupil ratio.")
@options.offs
@json_option
def command(
    lens: str, diameter: str, draw: str | None, pupils: str, offs: tuple[str, ...], as_json: bool
) -> None:
    """The true f-number of an opening.

    LENS is the focal length, DIAMETER the opening seen through the front of the lens against a rule.

    \b
        footlight camera opening "150 mm" "13.6 mm"
        footlight camera opening "150 mm" "13.6 mm" --draw "300 mm"
    """
    focal_mm = q.parse_length_mm(lens, "LENS")
    ratio = q.parse_number(pupils, "--pupils", least=0.2, most=5)
    off = written.tolerances(offs)
    drawn_mm = q.parse_length_mm(draw, "--draw") if draw else None
    out = from_draw(focal_mm, drawn_mm, ratio, off.draw_mm) if drawn_mm else INFINITY
    found = opening(out, focal_mm, q.parse_length_mm(diameter, "DIAMETER"), off.diameter_mm)
    budget = Budget((found.diameter_doubt, *([out.doubt] if out.doubt else [])))
    if as_json:
        print_json(
            {
                "true_f_number": round(found.true.exact_value, 3),
                "f_number_at_infinity": round(found.at_infinity.exact_value, 3),
                "bellows_factor": round(out.factor, 4),
                "uncertainty": budget.as_dict(),
            }
        )
        return
    near = FStop.nearest(found.true.exact_value)
    off = near.stops_to(found.true)
    mark = f"{near}" if abs(off) < 0.05 else f"{near} {off:+.2f} stop"
    say([f"f/{found.true.exact_value:.3g} (marked it would be {mark}), {budget}"])
    if draw:
        say([f"  f/{found.at_infinity.exact_value:.3g} at infinity; {out.said}: × {out.factor:.4g}"])
