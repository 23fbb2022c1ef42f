"""`footlight camera time`"""

from pathlib import Path

import click

from footlight import quantities as q
from footlight.camera import meter
from footlight.camera.exposure import time_for
from footlight.cli.camera import options
from footlight.cli.options import json_option, print_json, say
from footlight.errors import field
from footlight.views import camera_sums
from footlight.written import camera as written

_RACKED = ("lens", "draw", "image", "subject", "pupils")


@click.command
@click.argument("reading")
@click.argument("stop")
@click.option("--ei", required=True, metavar="INDEX", help="Exposure index of the paper: '4'.")
@options.racked
@click.option("--light", metavar="NAME", help="Subject light: a name in --file, or 'open shade, -1/3 stop'.")
@click.option("--filter", "filter_", metavar="NAME", help="Camera filter, in the same way.")
@click.option("--range", "iso_range", metavar="R", help="ISO range of the paper, to see what it holds: '90'.")
@click.option(
    "--ei-time", default="1 s", show_default=True, help="About the time at which the index was found."
)
@click.option("--p", "p", metavar="P", help="Measured exponent of long exposures (otherwise 0.9 ± 0.1).")
@click.option("--p-off", metavar="P", default="0.02", show_default=True, help="Its standard uncertainty.")
@click.option("-C", "c", metavar="C", help="The meter's constant for incident light (otherwise 250).")
@click.option("-K", "k", metavar="K", help="The meter's constant for reflected light (otherwise 12.5).")
@options.offs
@options.file
@json_option
def command(reading: str, stop: str, ei: str, as_json: bool, path: Path | None, **more) -> None:
    """The time at STOP, from a meter READING.

    READING is an exposure value at ISO 100, lux, luminance, or, where the meter does not go down to your
    index, what it proposes at one that it has.

    \b
        footlight camera time "EV 12" f/22 --ei 4
        footlight camera time "1/2 s, f/22, EI 8" f/22 --ei 2
        footlight camera time "20000 lx" f/16 --ei 4 --lens "150 mm" --draw "300 mm"
        footlight camera time "EV 13" f/22 --ei 4 --filter "yellow, 1 1/3 stop, R +20" --range 90
        footlight camera time "EV 13" f/22 --ei 4 --file camera.toml --light "open shade"
    """
    tolerances = written.tolerances(more["offs"])
    found = time_for(
        written.reading(
            reading,
            field("reading"),
            q.parse_number(more["c"], field("c")) if more["c"] else meter.C_USUAL,
            q.parse_number(more["k"], field("k")) if more["k"] else meter.K_USUAL,
        ),
        q.parse_stop(stop, field("stop")),
        written.film(ei, more["ei_time"], more["p"], more["p_off"], more["iso_range"]),
        extension=written.extension(*(more[key] for key in _RACKED), off_mm=tolerances.draw_mm),
        conditions=written.conditions(path, more["light"], more["filter_"]),
        tolerances=tolerances,
    )
    if as_json:
        print_json(found.as_dict())
        return
    say(camera_sums.time_lines(found), found.notes)
