"""`footlight mix capacity`"""

from typing import get_args

import click

from footlight import quantities as q
from footlight.chemistry.capacity import TRADE, Kind, Limits, Use, left
from footlight.cli.options import json_option, print_json, say
from footlight.errors import InputError
from footlight.quantities.table import choice

_LONGEST_H = 24 * 60.0


@click.command
@click.argument("kind")
@click.argument("volume")
@click.option("--sheets", metavar="N", default="0", help="Sheets through it so far.")
@click.option("--size", metavar="SIZE", default="8x10", show_default=True, help="Their size.")
@click.option("--visits", type=int, default=1, show_default=True, help="Times that each sheet goes through.")
@click.option("--age", metavar="TIME", help="Time in the open tray: '3 h'.")
@click.option("--fresh", metavar="TIME", help="Time that clearing or bleaching took when it was fresh.")
@click.option("--now", metavar="TIME", help="Time that it takes now.")
@click.option("--per-litre", metavar="'N to N'", help="Your own capacity, in sheets of 8x10: '15 to 50'.")
@click.option("--tray-life", metavar="'H to H'", help="Your own hours in the tray: '4 to 8'.")
@json_option
def command(
    kind: str,
    volume: str,
    sheets: str,
    size: str,
    visits: int,
    age: str | None,
    fresh: str | None,
    now: str | None,
    per_litre: str | None,
    tray_life: str | None,
    as_json: bool,
) -> None:
    """How many sheets a VOLUME of a bath still has in it. KIND: developer, bleach, clearing or fixer.

    Capacities are settings, not constants: the trade's ranges until you give yours.

    \b
        footlight mix capacity developer "1 L" --sheets 9 --visits 2 --age "3 h"
        footlight mix capacity bleach "700 mL" --sheets 2 --size 11x14 --fresh "2:00" --now "3:10"
        footlight mix capacity fixer "1 L" --sheets 12 --per-litre "20 to 30"
    """
    what: Kind = choice(kind, get_args(Kind), "KIND")  # pyright: ignore[reportAssignmentType]
    sheet = q.parse_sheet(size, "--size")
    use = Use(
        sheets_8x10=q.parse_number(sheets, "--sheets", most=10_000) * sheet.as_8x10,
        visits=visits,
        age_h=q.parse_seconds(age, "--age", most_s=_LONGEST_H * 3600) / 3600 if age else 0.0,
        fresh_s=q.parse_seconds(fresh, "--fresh") if fresh else None,
        now_s=q.parse_seconds(now, "--now") if now else None,
    )
    found = left(_limits(what, per_litre, tray_life), q.parse_volume_ml(volume, "VOLUME"), use)
    least, most = found.least_sheets / sheet.as_8x10, found.most_sheets / sheet.as_8x10
    if as_json:
        span = {"least_sheets_left": round(least, 2), "most_sheets_left": round(most, 2)}
        told = {"state": found.state} | span | {"sheet": sheet.name, "reasons": list(found.reasons)}
        print_json(told)
        return
    say([f"{found.state}: {least:.0f} to {most:.0f} sheets of {sheet.name} left by area"])
    say(f"  {reason}" for reason in found.reasons)


def _limits(kind: Kind, per_litre: str | None, tray_life: str | None) -> Limits:
    """The printer's own where they are given, else the trade's."""
    return Limits(
        _span(per_litre, "--per-litre") or TRADE[kind].sheets_per_l,
        _span(tray_life, "--tray-life") or TRADE[kind].tray_h,
    )


def _span(written: str | None, what: str) -> tuple[float, float] | None:
    """`15 to 50`; None where it is not given."""
    if written is None:
        return None
    least, to, most = (part.strip() for part in written.partition(" to "))
    if not to:
        raise InputError(f"{what}: '{written}' is no range; write for example '15 to 50'")
    return q.parse_number(least, what), q.parse_number(most, what)
