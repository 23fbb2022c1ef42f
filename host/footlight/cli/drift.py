"""`footlight drift`"""

import time
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import json_option, notebook_option, print_json, replace_option
from footlight.cli.types import WholeNumber

if TYPE_CHECKING:
    from footlight.cli.drifting import Drift

_DAY_S = 86_400


@click.command
@click.argument("setup")
@click.argument("picture", type=click.Path(path_type=Path, dir_okay=False), required=False)
@click.option("--days", type=WholeNumber(most=36_500), default=365, show_default=True, help="How far back.")
@replace_option
@notebook_option
@json_option
def command(setup: str, picture: Path | None, days: int, replace: bool, book: Path, as_json: bool) -> None:
    """How the light of a SETUP has drifted: each light planned and given, and each reference found good.

    All in stops from the first reference, carried there from whatever height and stop. PICTURE ends in .svg,
    .png or .pdf, and needs the extra 'pictures'; without it the lights are listed.

    \b
        footlight drift second
        footlight drift second drift.svg --days 180
    """
    from footlight.cli.drifting import drift
    from footlight.notebook.book import notebook

    if picture is not None:
        from footlight.report.sheet_of_graphs import check_name

        check_name(picture, replace)
    with notebook(book, writing=False) as connection:
        found = drift(connection, setup, int(time.time()) - days * _DAY_S)
    if picture is not None:
        _draw(found, picture)
    if as_json:
        print_json(
            {
                "setup": found.setup,
                "base": found.base,
                "references": [vars(one) for one in found.found],
                "lights": [vars(one) for one in found.given],
                "left_out": found.left_out,
            }
        )
        return
    click.echo(f"{picture}: {len(found.given)} lights" if picture else "\n".join(_listed(found)))
    if found.left_out:
        click.echo(f"! {found.left_out} lights left out: another lamp or filter, and no figure carries over")


def _draw(found: "Drift", picture: Path) -> None:
    from footlight.report.chart_drift import Light, Step, draw

    lights = [Light(one.unix_s, one.planned_stops, one.least_stops, one.most_stops) for one in found.given]
    first_s = min([light.unix_s for light in lights] + [one.unix_s for one in found.found if one.unix_s])
    steps = [Step(one.unix_s or first_s, one.stops, one.text) for one in found.found]
    draw(f"{found.setup}: light given over time, from {found.base}", lights, steps, picture)


def _listed(found: "Drift") -> list[str]:
    from footlight.views.table import columns
    from footlight.views.times import date_text

    references = [
        f"reference {one.text}: {one.stops:+.2f} stop"
        + (f", from {date_text(one.unix_s)}" if one.unix_s else "")
        for one in found.found
    ]
    rows = [
        [
            date_text(one.unix_s),
            f"{one.sheet}",
            _stops(one.planned_stops) if one.planned_stops is not None else "–",
            _given_text(one.least_stops, one.most_stops),
        ]
        for one in found.given
    ]
    return [*references, *columns(["date", "sheet", "planned [stops]", "given [stops]"], rows)]


def _given_text(least_stops: float, most_stops: float) -> str:
    same = most_stops - least_stops < 0.005
    return _stops(most_stops) if same else f"{_stops(least_stops)} to {_stops(most_stops)}"


def _stops(stops: float) -> str:
    # Nought has no sign.
    return f"{round(stops, 2) + 0.0:+.2f}" if abs(stops) >= 0.005 else "0"
