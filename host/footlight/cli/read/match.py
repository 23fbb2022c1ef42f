"""`footlight read match`"""

from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json, say


@click.command("match")
@click.argument("old", type=click.IntRange(1))
@click.argument("new", type=click.IntRange(1))
@click.option("--batch", metavar="NAME", help="The new batch; without it, that of the new strip's sheet.")
@notebook_option
@json_option
def command(old: int, new: int, batch: str | None, book: Path, as_json: bool) -> None:
    """How much more light a NEW batch of paper needs than the OLD one, from the readings of a strip of each.

    Both strips must be of one kind and lit by the same light at the same place. The difference is that of
    full black, or of the pre-flash threshold, with its 90 % interval; it is written as found out about the
    new batch, counted from what is known of the old one.

    \b
        footlight read match 3 8
        footlight read match 3 8 --batch B
    """
    from footlight.actions.match_papers import match_papers
    from footlight.views import paper_matches

    match = match_papers(book, old, new, batch)
    if as_json:
        print_json(paper_matches.as_dict(match))
        return
    say(paper_matches.lines(match))
