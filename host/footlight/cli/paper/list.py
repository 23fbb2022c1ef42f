"""`footlight paper list`"""

from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json, terminal_width


@click.command("list")
@notebook_option
@json_option
def command(book: Path, as_json: bool) -> None:
    """All batches: bought, used by sheets with a number, spoiled, left; '*' marks those in use.

    \b
    Example:
      footlight paper list
    """
    from footlight.actions.list_papers import list_papers
    from footlight.views.papers import as_dict, paper_lines

    listed = list_papers(book)
    if as_json:
        print_json([as_dict(batch) | {"in_use": batch.id in listed.in_use} for batch in listed.batches])
        return
    for line in paper_lines(listed, terminal_width()):
        click.echo(line)
    if not listed.batches:
        hint("No paper yet: 'footlight paper add' writes down a batch.")
