"""`footlight drift`"""

import time
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json, replace_option, terminal_width
from footlight.cli.types import WholeNumber

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
    from footlight.actions.trace_drift import trace_drift
    from footlight.views import drift

    traced = trace_drift(book, setup, int(time.time()) - days * _DAY_S, picture, replace)
    if as_json:
        print_json(drift.as_dict(traced))
        return
    if picture:
        click.echo(f"{picture}: {len(traced.lights)} lights")
    else:
        click.echo("\n".join(drift.lines(traced, terminal_width())))
    if traced.left_out:
        left_out = f"{traced.left_out} lights left out"
        click.echo(f"! {left_out}: another lamp or filter, and no figure carries over")
