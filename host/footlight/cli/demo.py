"""`footlight demo`: the whole job on the bench, in virtual time."""

import os
import shutil
import sys
from pathlib import Path

import click

from footlight.cli.options import terminal_width


@click.command("demo")
@click.option(
    "--folder",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("footlight-demo"),
    show_default=True,
    help="Where notebook, picture and the bench's flash are written; made anew each time.",
)
@click.option(
    "--interpreter",
    type=click.Choice(["micropython", "cpython"]),
    help="What runs the firmware. Without it: MicroPython where it is installed.",
)
def command(folder: Path, interpreter: str | None) -> None:
    """Make an invented print on the bench: plan, upload, pre-flash, wet run, record, picture.

    The controller's real firmware runs on simulated parts, in virtual time. Scripted feet do what a printer
    does: one bath runs over, one light is stopped and resumed, and in one bath the power fails.

    \b
    Example:
      footlight demo
    """
    from footlight.actions.demonstrate import Chapter, demonstrate
    from footlight.views.demonstration import chapter_lines

    def tell(chapter: Chapter) -> None:
        for line in chapter_lines(chapter, terminal_width(), _called()):
            click.echo(line)

    demonstrate(folder, tell, interpreter)


def _called() -> str:
    """How the tool is called here: by its name where a shell finds that, else by where it lies."""
    return "footlight" if shutil.which("footlight") else os.path.relpath(sys.argv[0])
