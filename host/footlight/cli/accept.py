"""`footlight accept`: the advice of a reading becomes the reference of its light setup."""

import json
import time
from pathlib import Path

import click

from footlight.cli.options import from_settings, json_option, notebook_option, print_json


@click.command("accept")
@click.argument("reading", type=click.IntRange(1), required=False)
@click.option(
    "--setup", "names", multiple=True, metavar="NAME", help="Into this light setup; again for more."
)
@click.option(
    "--setups",
    type=click.Path(path_type=Path),
    default=from_settings("setups", "light-setups.toml"),
    show_default="light-setups.toml",
    metavar="FILE",
    help="The light-setups file.",
)
@click.option("--dose", metavar="TIME", help="Another dose than the advice, such as '7 s'.")
@click.option("--at", "place", metavar="PLACE", help="Where the strip stood, if not known: '620 mm f/11'.")
@click.option("--yes", is_flag=True, help="Do not ask.")
@notebook_option
@json_option
def command(
    reading: int | None,
    names: tuple[str, ...],
    setups: Path,
    dose: str | None,
    place: str | None,
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
    from footlight.cli import accepting
    from footlight.notebook.book import notebook
    from footlight.notebook.sheets import readings

    with notebook(book, writing=True) as connection:
        kept = readings.find(connection, reading)
        written = _written(kept, dose, place)
        into = names or accepting.twins(setups, _setup_of(kept))
        planned = accepting.plan(setups, into, written, kept.id)
        if not as_json:
            _show(planned, written)
        if planned.changes:
            if not yes:
                click.confirm("Write it?", abort=True, err=as_json)
            said = f"reading {kept.id} accepted: {', '.join(into)} {written} in {setups.name}"
            accepting.carry_out(connection, planned, said, int(time.time()))
    if as_json:
        print_json({"reading": kept.id, "file": str(setups), "reference": written, "changed": _told(planned)})


def _written(kept, dose: str | None, place: str | None) -> str:
    """The new reference, as it is written in the file."""
    from footlight import quantities as q
    from footlight.errors import InputError
    from footlight.sequence.reference import reference

    if kept.kind == "print":
        raise InputError(f"reading {kept.id} is of a print, which advises no dose; name a strip's reading")
    seconds = q.parse_seconds(dose, "--dose", least_s=0.01) if dose else kept.dose_s
    if seconds is None:
        raise InputError(
            f"reading {kept.id} found no safe dose; make the next strip, or say which you take: --dose '7 s'"
        )
    where = place or (json.loads(kept.result).get("taken") or {}).get("place")
    if not where:
        raise InputError(
            f"reading {kept.id}: where its strip stood is not known; say it, for example --at '620 mm f/11'"
        )
    written = f"{q.format_seconds(seconds)} at {where}"
    reference().read(written, "--at")
    return written


def _setup_of(kept) -> str:
    from footlight.errors import InputError

    if not kept.setup:
        raise InputError(
            f"reading {kept.id}: its doses were typed, so its light setup is not known; name it, for example"
            " --setup second"
        )
    return kept.setup


def _show(planned, written: str) -> None:
    for one in planned.changes:
        click.echo(f"{planned.path}, setup '{one.setup}':")
        click.echo(f"  before  {one.before or 'no reference'}")
        click.echo(f"  after   {one.after}")
    for name in planned.unchanged:
        click.echo(f"{planned.path}, setup '{name}': says {written} already; nothing to change")


def _told(planned) -> list[dict[str, str]]:
    return [{"setup": one.setup, "before": one.before, "after": one.after} for one in planned.changes]
