"""`footlight export`: everything in the notebook, for other programs."""

from pathlib import Path

import click

from footlight.cli.options import notebook_option


@click.command("export")
@click.argument("target", type=click.Path(path_type=Path))
@click.option("--csv", "as_csv", is_flag=True, help="TARGET is a new folder, with a CSV file for each table.")
@notebook_option
def command(target: Path, as_csv: bool, book: Path) -> None:
    """Write everything in the notebook to TARGET, as JSON. An existing file is not overwritten.

    Pictures are within the JSON (base64); with --csv they are files beside the tables. 'footlight restore'
    makes a notebook of the JSON again.

    \b
    Example:
      footlight export everything.json
      footlight export tables --csv
    """
    from footlight.notebook import exchange
    from footlight.notebook.book import notebook

    with notebook(book, writing=False) as connection:
        if as_csv:
            click.echo(f"{target}: {len(exchange.write_csv(connection, target))} tables")
            return
        count = exchange.write_json(connection, target)
    click.echo(f"{target}: {count} rows")
