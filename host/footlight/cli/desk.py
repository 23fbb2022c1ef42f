"""`footlight desk`: the same tool as a page in the browser."""

from pathlib import Path

import click

from footlight.cli.options import is_quiet, notebook_option, port_option
from footlight.errors import FootlightError


@click.command("desk")
@click.option(
    "--folder",
    type=click.Path(path_type=Path, file_okay=False, exists=True),
    default=Path("."),
    show_default=True,
    help="Where your sequences lie.",
)
@click.option(
    "--at",
    type=click.IntRange(0, 65_535),
    default=8724,
    show_default=True,
    metavar="NUMBER",
    help="Port of this computer that the page is at; 0: any free one.",
)
@click.option("--open/--no-open", "opens", default=True, help="Open the browser, or only say the address.")
@port_option
@notebook_option
def command(folder: Path, at: int, opens: bool, port: str | None, book: Path) -> None:
    """Open the desk: tonight, sequences, reckoning, strips, prints and stock as a page in the browser.

    It is for daylight, in the room beside: no screen is safe for paper. Only this computer can reach it, with
    the address that is printed here; nothing leaves it, and nothing there lights the lamp. Ctrl-C ends it.

    \b
    Example:
      footlight desk
      footlight desk --folder prints --at 9000 --no-open
    """
    try:
        from footlight.desk import server
        from footlight.desk.app import make_app
    except ModuleNotFoundError as error:
        if (error.name or "").startswith("footlight"):
            raise
        raise FootlightError("the desk needs a few more packages: pip install 'footlight[desk]'") from None
    from footlight.actions.list_acts import list_acts
    from footlight.desk.desk import Desk
    from footlight.desk.guard import Keys

    if book.exists():
        # What is wrong with the notebook is said here, before a page is opened.
        list_acts(book, 1)
    bound = server.sockets(at)
    keys = Keys(server.hosts(server.port_of(bound)))
    address = f"http://127.0.0.1:{server.port_of(bound)}/?token={keys.token}"

    def ready() -> None:
        click.echo(address)
        if not is_quiet():
            click.echo("Ctrl-C ends it. No screen is safe for paper: keep it out of the darkroom.", err=True)
        if opens:
            click.launch(address)

    desk = Desk(book, folder.resolve(), port)
    try:
        server.serve(make_app(desk, keys), bound, ready)
    finally:
        desk.close()
