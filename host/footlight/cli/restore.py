"""`footlight restore`: a new notebook from an exported file."""

from pathlib import Path

import click

from footlight.cli.options import notebook_option


@click.command("restore")
@click.argument("file", type=click.Path(path_type=Path))
@notebook_option
def command(file: Path, book: Path) -> None:
    """Make a new notebook of FILE, which 'footlight export' wrote. An old notebook is never written over.

    \b
    Example:
      footlight restore everything.json --notebook again.sqlite
    """
    from footlight.notebook import exchange, migrate
    from footlight.notebook.book import notebook

    read = exchange.read_json(file, migrate.newest())
    with notebook(book, writing=True) as connection:
        count = exchange.fill(connection, read)
    click.echo(f"{book}: {count} rows")
