"""`footlight check`: is the notebook whole?"""

from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json


@click.command("check")
@notebook_option
@json_option
def command(book: Path, as_json: bool) -> None:
    """Look the notebook through: pages, indices, references, check sums of records, programs and pictures.

    Nothing is changed. Exits with 7 where something is damaged; 'footlight backup' looks at the same before
    it says that a copy is whole.

    \b
    Example:
      footlight check
      footlight check --notebook notebook-2026-03-01.sqlite
    """
    from footlight.actions.check_notebook import check_notebook
    from footlight.notebook.errors import NotebookError

    soundness = check_notebook(book)
    if as_json:
        print_json(asdict(soundness) | {"book": str(book)})
    if soundness.faults:
        for line in () if as_json else soundness.faults:
            click.echo(line)
        raise NotebookError(
            f"{book}: damaged; keep this file, and take the newest back-up that 'footlight check' finds whole"
        )
    if not as_json:
        click.echo(
            f"{book}: whole; {soundness.records} records, {soundness.sheets} sheets, "
            f"{soundness.pictures} pictures"
        )
