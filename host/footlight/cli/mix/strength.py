"""`footlight mix strength`"""

import click

from footlight import quantities as q
from footlight.chemistry import peroxide
from footlight.chemistry.hazards import hazards_for
from footlight.cli.mix import options
from footlight.cli.options import json_option, print_json, say
from footlight.errors import InputError


@click.command
@click.argument("parts", nargs=-1, required=True)
@json_option
def command(parts: tuple[str, ...], as_json: bool) -> None:
    """What strength PARTS really have, poured together; or one strength said in all three ways.

    \b
        footlight mix strength "35 % w/w"
        footlight mix strength "30 % w/w, 100 mL" "water, 200 mL"
        footlight mix strength "10 % w/w, 800 mL" "35 % w/w, 50 mL"
    """
    if len(parts) == 1 and "," not in parts[0]:
        made, volume_ml = options.stock_of(parts[0], "STRENGTH"), None
    else:
        made, volume_ml = peroxide.of_parts(_part(text, n) for n, text in enumerate(parts, start=1))
    if not made.ww:
        raise InputError("mix: water alone; give at least one part of peroxide, '35 % w/w, 100 mL'")
    hazards = hazards_for("hydrogen peroxide", made.ww)
    if as_json:
        volume = round(volume_ml, 3) if volume_ml else None
        print_json({**made.as_dict(), "volume_ml": volume, "safety": hazards.as_dict()})
        return
    say([f"{q.format_volume_ml(volume_ml)} of {made}" if volume_ml else f"{made}"])
    options.say_hazards([hazards])


def _part(text: str, number: int) -> tuple[float, float]:
    """(% w/w, mL) of `35 % w/w, 100 mL` or `water, 200 mL`."""
    what = f"part {number}"
    strength, _, volume = (piece.strip() for piece in text.partition(","))
    if not volume:
        raise InputError(f"{what}: '{text}' has no volume; write for example '35 % w/w, 100 mL'")
    ww = 0.0 if strength.lower() == "water" else options.stock_of(strength, what).ww
    return ww, q.parse_volume_ml(volume, what)
