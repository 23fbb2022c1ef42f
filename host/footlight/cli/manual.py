"""`footlight manual`: every command on one page."""

from pathlib import Path

import click

from footlight import whole_file
from footlight.cli.options import hint


@click.command("manual")
@click.option(
    "--out",
    type=click.Path(path_type=Path, dir_okay=False),
    metavar="FILE",
    help="Write it as a page for 'man', such as footlight.1.",
)
def command(out: Path | None) -> None:
    """Read the manual: every command with its options and examples.

    At a terminal it is shown a page at a time. With --out it is written for 'man'; in a folder man1 of your
    manual path, such as ~/.local/share/man/man1, 'man footlight' finds it.

    \b
    Example:
      footlight manual
      footlight manual --out footlight.1
    """
    from footlight.cli import manual_page, manual_text

    if out is None:
        click.echo_via_pager(manual_text.text())
        return
    # Over an older one: the page is the tool's own, and an update of the tool brings a new one.
    whole_file.write(out, manual_page.page(), replacing=True)
    click.echo(out)
    hint(f"Read it with: man -l {out}")
