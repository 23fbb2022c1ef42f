"""`footlight light warm-up`"""

import click

from footlight import quantities as q
from footlight.cli.options import json_option, print_json
from footlight.light.lamp import WarmUp
from footlight.written.lists import pairs


@click.command("warm-up")
@click.argument("readings", nargs=-1, required=True)
@click.option("--exposure", metavar="TIME", help="Also say what an exposure of this time begun cold gives.")
@click.option("--within", metavar="STOPS", default="0.03", show_default=True, help="What counts as settled.")
@json_option
def command(readings: tuple[str, ...], exposure: str | None, within: str, as_json: bool) -> None:
    """How a lamp settles: meter READINGS with their times after switching on; the last is taken as steady.

    \b
        footlight light warm-up "0 s, 9.1 lx" "1 s, 11.2 lx" "3 s, 11.9 lx" "10 s, 12 lx" --exposure "6 s"
    """
    read = pairs(readings, q.parse_seconds, q.parse_lux, "reading", "'1 s, 11.2 lx'")
    lamp = WarmUp(tuple(second for second, _ in read), tuple(lux for _, lux in read))
    settled_s = lamp.settled_s(q.parse_stops(within, "--within", least=0.001, most=1))
    loss = lamp.loss_stops(q.parse_seconds(exposure, "--exposure")) if exposure else None
    if as_json:
        print_json(
            {"settled_s": settled_s, "cold_exposure_stops": round(loss, 4) if loss is not None else None}
        )
        return
    click.echo(
        f"settled after {q.format_seconds(settled_s)}; at first {lamp.off_stops(read[0][0]):+.2f} stop"
    )
    if loss is not None:
        click.echo(f"{exposure} begun cold: {loss:+.2f} stop against a warm lamp")
