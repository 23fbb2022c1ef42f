"""`footlight export`: everything in the notebook, for other programs."""

import json
from pathlib import Path

import click

from footlight.cli.options import notebook_option


@click.command("export")
@click.argument("target", type=click.Path(path_type=Path))
@click.option("--csv", "as_csv", is_flag=True, help="TARGET is a new folder, with a CSV file for each table.")
@notebook_option
def command(target: Path, as_csv: bool, book: Path) -> None:
    """Write everything in the notebook to TARGET, as JSON. An existing file is not overwritten.

    \b
    Example:
      footlight export everything.json
      footlight export tables --csv
    """
    from footlight.notebook import exchange
    from footlight.notebook.book import notebook
    from footlight.notebook.errors import NotebookError

    with notebook(book, writing=False) as connection:
        if as_csv:
            click.echo(f"{target}: {len(exchange.write_csv(connection, target))} tables")
            return
        if target.exists():
            raise NotebookError(f"{target}: there is such a file already; name another")
        everything = exchange.as_dict(connection)
        target.write_text(json.dumps(everything, ensure_ascii=False, indent=1) + "\n", encoding="utf-8")
    click.echo(f"{target}: {sum(map(len, everything['tables'].values()))} rows")
