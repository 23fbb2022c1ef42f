"""`footlight restore`: a new notebook from an exported file."""

from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json, say_spoilt


@click.command("restore")
@click.argument("file", type=click.Path(path_type=Path))
@notebook_option
@json_option
def command(file: Path, book: Path, as_json: bool) -> None:
    """Make a new notebook of what 'footlight export' wrote, also of an older version: a file or CSV folder.

    A notebook that holds anything is never written over; name a new file with --notebook. All or nothing.

    \b
    Example:
      footlight restore everything.json --notebook again.sqlite
      footlight restore tables --notebook again.sqlite
    """
    from footlight.notebook import restore, restore_csv

    exported = restore_csv.read_csv(file) if file.is_dir() else restore.read_json(file)
    spoilt = restore.restore(exported, book)
    if as_json:
        told = {"notebook": str(book), "rows": exported.count, "from_version": exported.version}
        print_json(told | {"spoilt": spoilt})
    elif not spoilt:
        click.echo(f"{book}: {exported.count} rows, checked")
    say_spoilt(book, spoilt)
