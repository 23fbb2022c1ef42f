"""`footlight restore`: a new notebook from an exported file."""

from pathlib import Path

import click

from footlight.cli.options import notebook_option


@click.command("restore")
@click.argument("file", type=click.Path(path_type=Path))
@notebook_option
def command(file: Path, book: Path) -> None:
    """Make a new notebook of FILE, which 'footlight export' wrote, also of an older version.

    A notebook that holds anything is never written over; name a new file with --notebook. All or nothing.

    \b
    Example:
      footlight restore everything.json --notebook again.sqlite
    """
    from footlight.notebook import restoring

    exported = restoring.read_json(file)
    restoring.restore(exported, book)
    click.echo(f"{book}: {exported.count} rows")
