"""`footlight page sheet`"""

from pathlib import Path

import click

from footlight.cli.options import notebook_option, replace_option
from footlight.cli.page import options
from footlight.cli.types import FROM_1


@click.command("sheet")
@click.argument("number", type=FROM_1)
@click.option("--which", type=FROM_1, help="Which of its pictures. Without it: the last.")
@click.option("--controller", help="Which controller's, if several have a sheet of that number.")
@options.paper_option
@options.out_option
@replace_option
@notebook_option
def command(
    number: int,
    which: int | None,
    controller: str | None,
    paper: str,
    out: Path | None,
    replace: bool,
    book: Path,
) -> None:
    """The report of print NUMBER: picture, camera, paper, baths, planned against given, curve, remarks.

    What the notebook does not know is left out. Pictures are those of 'footlight attach'; the curve is that
    of a strip read on this sheet, or of the strip that its light setup's reference came from.

    \b
    Example:
      footlight page sheet 41
      footlight page sheet 41 --out sleeve-41.html
    """
    from footlight.actions.report_print import report_print
    from footlight.cli.options import hint
    from footlight.views.print_report import report_of, report_page

    report = report_of(report_print(book, number, controller, which))
    target = out or Path(f"print-{number}.html")
    options.write(target, report_page(report, paper), replace)
    shown = "with its picture" if report.shown else "no picture is attached"
    click.echo(f"{target}: print {number}, {shown}")
    hint("Open it in a browser and print it, without headers and footers.")
