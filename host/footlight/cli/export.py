"""`footlight export`: everything in the notebook, for other programs."""

from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json


@click.command("export")
@click.argument("target", type=click.Path(path_type=Path))
@click.option("--csv", "as_csv", is_flag=True, help="TARGET is a new folder, with a CSV file for each table.")
@notebook_option
@json_option
def command(target: Path, as_csv: bool, book: Path, as_json: bool) -> None:
    """Write everything in the notebook to TARGET, as JSON. An existing file is not overwritten.

    Pictures are within the JSON (base64); with --csv they are files beside the tables. 'footlight restore'
    makes a notebook of either again.

    \b
    Example:
      footlight export everything.json
      footlight export tables --csv
    """
    from footlight.actions.keep_notebook import export_csv, export_json

    if as_csv:
        tables = export_csv(book, target)
        told, said = {"folder": str(target), "tables": tables}, f"{target}: {tables} tables"
    else:
        rows = export_json(book, target)
        told, said = {"file": str(target), "rows": rows}, f"{target}: {rows} rows"
    if as_json:
        print_json(told)
    else:
        click.echo(said)
