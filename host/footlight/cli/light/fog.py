"""`footlight light fog`"""

from pathlib import Path

import click

from footlight import quantities as q
from footlight.cli.options import json_option, notebook_option, print_json
from footlight.light.strip.fog import FogVerdict, verdict
from footlight.written.lists import pairs


@click.command
@click.argument("bands", nargs=-1, required=True)
@click.option(
    "--change", metavar="DENSITY", default="0.02 D", show_default=True, help="What counts as a change."
)
@click.option(
    "--keep",
    type=click.Choice(["before", "after-bleach"]),
    help="Also write it into the notebook, for this stage; 'footlight ready' holds plans against it.",
)
@notebook_option
@json_option
def command(bands: tuple[str, ...], change: str, keep: str | None, book: Path, as_json: bool) -> None:
    """How long a safelight is safe, from the density of each band of a fog test.

    Each band is its time under the safelight and its density; the first has no time. Plan the test with
    `footlight light strip fog`. Before the first developer fog is lost black, after the bleach veil.

    \b
        footlight light fog "0 s, 2.10 D" "1 min, 2.10 D" "4 min, 2.09 D" "8 min, 2.04 D"
        footlight light fog "0 s, 2.10 D" "4 min, 2.09 D" "8 min, 2.04 D" --keep before
    """
    read = pairs(bands, q.parse_seconds, q.parse_density_d, "band", "'4 min, 2.09 D'")
    found = verdict(
        [seconds for seconds, _ in read],
        [density for _, density in read],
        q.parse_density_d(change, "--change"),
    )
    if keep:
        _keep(keep, found, book)
    if as_json:
        print_json({"safe_s": found.safe_s, "fogged_s": found.fogged_s, "kept_as": keep})
        return
    click.echo(f"{found.summary}; kept, {keep}" if keep else found.summary)


def _keep(stage: str, found: FogVerdict, book: Path) -> None:
    import time

    from footlight.notebook.book import notebook
    from footlight.notebook.stock import fog_tests

    with notebook(book, writing=True) as connection:
        test = fog_tests.FogTest(stage, found.safe_s, found.fogged_s)
        fog_tests.keep(connection, test, int(time.time()))
