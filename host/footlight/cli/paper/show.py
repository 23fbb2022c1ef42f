"""`footlight paper show`"""

from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json, terminal_width


@click.command("show")
@click.argument("name")
@notebook_option
@json_option
def command(name: str, book: Path, as_json: bool) -> None:
    """One batch: counts, everything found out about it with its date, and which sheets are of it.

    Of several values of a kind the last one holds.

    \b
    Example:
      footlight paper show A
    """
    from footlight.actions.list_papers import show_paper
    from footlight.views import papers

    paper = show_paper(book, name)
    if as_json:
        findings = [asdict(finding) for finding in paper.findings]
        print_json(papers.as_dict(paper.batch) | {"findings": findings, "numbers": paper.sheets})
        return
    for line in papers.whole(paper, terminal_width()):
        click.echo(line)
