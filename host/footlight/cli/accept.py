"""`footlight accept`: the advice of a reading becomes the reference of its light setup."""

import time
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import from_settings, json_option, notebook_option, print_json
from footlight.cli.types import Quantity

if TYPE_CHECKING:
    from footlight.actions.accept_dose import Acceptance


@click.command("accept")
@click.argument("reading", type=click.IntRange(1), required=False)
@click.option(
    "--setup", "setup", multiple=True, metavar="NAME", help="Into this light setup; again for more."
)
@click.option(
    "--setups",
    type=click.Path(path_type=Path),
    default=from_settings("setups", "light-setups.toml"),
    show_default="light-setups.toml",
    metavar="FILE",
    help="The light-setups file.",
)
@click.option(
    "--dose",
    "dose_s",
    metavar="TIME",
    type=Quantity("parse_seconds", least_s=0.01),
    help="Another dose than the advice, such as '7 s'.",
)
@click.option("--at", "at", metavar="PLACE", help="Where the strip stood, if not known: '620 mm f/11'.")
@click.option("--yes", is_flag=True, help="Do not ask.")
@notebook_option
@json_option
def command(
    reading: int | None,
    setup: tuple[str, ...],
    setups: Path,
    dose_s: float | None,
    at: str | None,
    yes: bool,
    book: Path,
    as_json: bool,
) -> None:
    """Write the dose that a strip advises into its light setup, as the new reference exposure.

    It is the last reading, or the one of number READING. The setup is that of the strip's lights; setups of
    the same lamp, lens and filter that had the same reference get the new one too, unless --setup names
    which. Comments in the file stay. Before and after are shown first; 'footlight undo' takes it back.

    \b
    Example:
      footlight accept
      footlight accept 7 --setup second --yes
    """
    from footlight.actions.accept_dose import accept_dose, plan_acceptance

    planned = plan_acceptance(book, setups, reading_id=reading, setups=setup, dose_s=dose_s, place=at)
    if not as_json:
        _show(planned)
    if planned.changes:
        if not yes:
            click.confirm("Write it?", abort=True, err=as_json)
        accept_dose(book, planned, int(time.time()))
    if as_json:
        print_json(_as_dict(planned))


def _show(planned: "Acceptance") -> None:
    for change in planned.changes:
        click.echo(f"{planned.path}, setup '{change.setup}':")
        click.echo(f"  before  {change.before or 'no reference'}")
        click.echo(f"  after   {change.after}")
    for name in planned.unchanged:
        click.echo(f"{planned.path}, setup '{name}': says {planned.reference} already; nothing to change")


def _as_dict(planned: "Acceptance") -> dict[str, object]:
    return {
        "reading": planned.reading_id,
        "file": str(planned.path),
        "reference": planned.reference,
        "changed": [
            {"setup": change.setup, "before": change.before, "after": change.after}
            for change in planned.changes
        ],
    }
