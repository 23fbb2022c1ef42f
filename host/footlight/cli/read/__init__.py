"""`footlight read`: what a strip or a print says about the next exposure."""

import click

from footlight.cli.table import Rows, Table

ROWS: Rows = {
    "strip": ("strip", "From the scan of a dry strip to the next exposure"),
    "eye": ("eye", "The same evening, wet: three answers in place of a scan"),
    "flash": ("flash", "The quick pre-flash strip: where paper begins to see"),
    "flash-bands": ("flash_bands", "The deciding pre-flash strip: the largest flash that keeps the black"),
    "match": ("match", "A new batch of paper against the old one, from a strip of each"),
    "print": ("sheet", "Every print is its own control: black, veil and mottle of plain places"),
    "kept": ("kept", "The readings that were kept, and their pictures"),
    "sample": ("sample", "Write the scan of an invented strip, to try the reading on"),
}


@click.group(cls=Table, rows=ROWS, package="footlight.cli.read")
def command() -> None:
    """Read strips and prints: density, mottle, the window of safe doses, the next strip.

    \b
        footlight read sample strip.tif
        footlight read strip strip.tif --present "8 s" --centre "8 s" --step "1 stop" --steps 7
        footlight read eye --first-full 4 --last-clean 6 --present "8 s" --centre "8 s"
    """
