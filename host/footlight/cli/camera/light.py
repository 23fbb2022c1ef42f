"""`footlight camera light`"""

import click

from footlight import quantities as q
from footlight.camera import meter
from footlight.cli.options import json_option, print_json, say
from footlight.errors import field
from footlight.views import camera_sums
from footlight.written import camera as written


@click.command
@click.argument("reading")
@click.option("-C", "c", metavar="C", help="The meter's constant for incident light (otherwise 250).")
@click.option("-K", "k", metavar="K", help="The meter's constant for reflected light (otherwise 12.5).")
@json_option
def command(reading: str, c: str | None, k: str | None, as_json: bool) -> None:
    """Exposure value at ISO 100, lux and luminance, whichever was read.

    \b
        footlight camera light "EV 12"
        footlight camera light "20000 lx" -C 340
        footlight camera light "1/2 s, f/22, EI 8"
    """
    constant_c = q.parse_number(c, field("c")) if c else meter.C_USUAL
    constant_k = q.parse_number(k, field("k")) if k else meter.K_USUAL
    scene = written.reading(reading, field("reading"), constant_c, constant_k)
    if as_json:
        lux, cd_m2 = meter.lux_of(scene.ev100, constant_c), meter.luminance_of(scene.ev100, constant_k)
        values = {"ev100": scene.ev100, "lux": lux, "luminance_cd_m2": cd_m2}
        print_json({name: round(value, 4) for name, value in values.items()})
        return
    say(camera_sums.scene_lines(scene, constant_c, constant_k))
