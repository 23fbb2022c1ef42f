"""`footlight mix capacity`"""

from typing import get_args

import click

from footlight import quantities as q
from footlight.chemistry.capacity import TRADE, Limits, Use, left
from footlight.cli.options import json_option, print_json, say
from footlight.errors import field
from footlight.kinds import FormulaKind
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
    from footlight.views import mixes
    from footlight.written.mixes import span

    what: FormulaKind = choice(kind, get_args(FormulaKind), field("kind"))  # pyright: ignore[reportAssignmentType]
    sheet = q.parse_sheet(size, field("size"))
    use = Use(
        sheets_8x10=q.parse_number(sheets, field("sheets"), most=10_000) * sheet.as_8x10,
        visits=visits,
        age_h=q.parse_seconds(age, field("age"), most_s=_LONGEST_H * 3600) / 3600 if age else 0.0,
        fresh_s=q.parse_seconds(fresh, field("fresh")) if fresh else None,
        now_s=q.parse_seconds(now, field("now")) if now else None,
    )
    limits = Limits(
        span(per_litre, field("per_litre")) or TRADE[what].sheets_per_l,
        span(tray_life, field("tray_life")) or TRADE[what].tray_h,
    )
    remaining = left(limits, q.parse_volume_ml(volume, field("volume")), use)
    if as_json:
        print_json(mixes.capacity_as_dict(remaining, sheet))
        return
    say(mixes.capacity_lines(remaining, sheet))
