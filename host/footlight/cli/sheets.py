"""`footlight sheets`: the list of sheets."""

from pathlib import Path

import click

from footlight.cli.layout import columns, when_text
from footlight.cli.options import hint, json_option, notebook_option, print_json


@click.command("sheets")
@click.option(
    "--last", "most", type=click.IntRange(1), default=20, show_default=True, help="So many, newest first."
)
@notebook_option
@json_option
def command(most: int, book: Path, as_json: bool) -> None:
    """List the sheets in the notebook, the newest first.

    \b
    Example:
      footlight sheets --last 5
    """
    from footlight.notebook import sheets
    from footlight.notebook.book import notebook

    with notebook(book, writing=False) as connection:
        listed = sheets.newest(connection, most)
        total = sheets.count(connection)
    if as_json:
        print_json([_as_dict(sheet) for sheet in listed])
        return
    several = len({sheet.controller for sheet in listed}) > 1
    rows = [
        [f"{sheet.number}", when_text(sheet.when), " + ".join(sheet.titles), sheet.ended or "not ended"]
        + ([sheet.controller] if several else [])
        for sheet in listed
    ]
    for line in columns(
        ["sheet", "last run", "sequences", "ended"] + (["controller"] if several else []), rows
    ):
        click.echo(line)
    if total > len(listed):
        click.echo(f"{total - len(listed)} older ones: --last {total}")
    if not total:
        hint("The notebook has no sheets yet: 'footlight collect' brings them home.")


def _as_dict(sheet) -> dict[str, object]:
    return {
        "sheet": sheet.number,
        "controller": sheet.controller,
        "epoch": sheet.epoch,
        "from_unix_s": sheet.when.from_unix_s,
        "to_unix_s": sheet.when.to_unix_s,
        "sequences": sheet.titles,
        "ended": sheet.ended,
    }
