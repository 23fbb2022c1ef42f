"""`footlight bench`: a controller without a board, under your own foot."""

import signal
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import hint, is_quiet, json_option, print_json
from footlight.cli.terminal import free

if TYPE_CHECKING:
    from footlight.bench.live import Desk
    from footlight.bench.scene import Told
    from footlight.link.upload import Delivery

PICTURE, LINES, JSON = "picture", "lines", "json"


@click.command("bench")
@click.argument("files", nargs=-1, type=click.Path(path_type=Path), metavar="[FILE]...")
@click.option(
    "--folder",
    type=click.Path(path_type=Path, file_okay=False),
    help="Where its flash and its practice notebook lie. Without it: in your platform's folder for data.",
)
@click.option("--tcp", is_flag=True, help="Serve a TCP port of this computer in place of a pseudo-terminal.")
@click.option("--tcp-port", type=click.IntRange(1, 65_535), help="That TCP port. Without it: any free one.")
@click.option(
    "--speed",
    type=click.FloatRange(0.1, 50),
    default=1.0,
    show_default=True,
    help="Seconds of the bench for each second; + and - change it.",
)
@click.option("--plain", is_flag=True, help="Lines in place of a picture; so it is too when piped.")
@click.option("--lamp", is_flag=True, help="An invented lamp burns, and a light sensor sees it.")
@click.option(
    "--mains",
    type=click.FloatRange(70, 120),
    metavar="PERCENT",
    help="The same lamp on a mains of so much of its voltage.",
)
@json_option
@click.option(
    "--for", "for_s", type=click.FloatRange(0), metavar="SECONDS", help="End by itself after so long."
)
@click.option(
    "--interpreter",
    type=click.Choice(["micropython", "cpython"]),
    help="What runs the firmware. Without it: MicroPython where it is installed.",
)
def command(
    files: tuple[Path, ...],
    folder: Path | None,
    tcp: bool,
    tcp_port: int | None,
    speed: float,
    plain: bool,
    lamp: bool,
    mains: float | None,
    as_json: bool,
    for_s: float | None,
    interpreter: str | None,
) -> None:
    """Practise with the controller's real firmware: the room in your terminal, a key for the pedal.

    Each FILE is a sequence; it is sent to the controller first, and its trays are drawn. Without any, what
    the controller holds is there; if that is nothing, the shipped examples are sent. Other commands talk to
    the port that is shown, as to a controller on a cable.

    Piped, or with --plain or --json, it tells in lines what happens, and takes words on its standard
    input: tap, long, down, up, power, end.

    \b
    Example:
      footlight bench reversal-print.toml
      footlight bench reversal-print.toml --speed 10
      footlight bench --lamp                     ('footlight lamp learn' learns it)
      footlight watch --port /dev/pts/5          (in another terminal)
      (sleep 4; echo long; sleep 2; echo long) | footlight bench --plain --for 10
    """
    from footlight.actions.practise import Port, place_of, practise

    place, shown = place_of(folder), _manner(plain, as_json)
    port = Port(tcp or tcp_port is not None, tcp_port or 0)
    mains_percent = mains if mains is not None else 100.0 if lamp else None
    work = practise(files, place, port, speed, for_s, interpreter, mains_percent, _tell_sent)
    with _ended_by_signals(), work as desk:
        _tell_address(desk.port, place, shown)
        _work_at(desk, shown)
    hint(f"the bench is off; its flash and practice notebook are kept in {place}")


def _manner(plain: bool, as_json: bool) -> str:
    """A picture for a person at a terminal; lines for everything else."""
    if as_json:
        return JSON
    return PICTURE if sys.stdin.isatty() and sys.stdout.isatty() and not plain else LINES


def _tell_sent(delivery: "Delivery") -> None:
    if not is_quiet():
        click.echo(f"{delivery.title} is in slot {delivery.slot}", err=True)


def _tell_address(address: str, folder: Path, shown: str) -> None:
    from footlight.actions.practise import NOTEBOOK

    # On the standard output where a script reads it, and there first of all.
    if shown == JSON:
        print_json({"port": address, "notebook": str(folder / NOTEBOOK)}, indent=None)
        return
    click.echo(f"port {address}")
    if is_quiet():
        return
    click.echo(f"practice notebook {folder / NOTEBOOK}", err=True)
    click.echo(f"Other commands, elsewhere: footlight watch --port {address}", err=True)


@contextmanager
def _ended_by_signals() -> Iterator[None]:
    """A closed terminal, or a polite kill, ends the bench as Ctrl-C does."""

    def end(number: int, frame: object) -> None:
        raise KeyboardInterrupt

    names = [name for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name)]
    before = {name: signal.signal(getattr(signal, name), end) for name in names}
    try:
        yield
    except KeyboardInterrupt:
        return
    finally:
        for name, handler in before.items():
            signal.signal(getattr(signal, name), handler)


def _work_at(desk: "Desk", shown: str) -> None:
    from footlight.actions.practise import show, tell

    if shown == PICTURE:
        with free(sys.stdout):
            show(desk)
    else:
        tell(desk, _print_json if shown == JSON else _print_line)


def _print_line(told: "Told") -> None:
    minutes, rest_ms = divmod(told.t_ms, 60_000)
    click.echo(f"{minutes}:{rest_ms / 1000:06.3f}  {told.kind:<8}  {told.text}".rstrip())


def _print_json(told: "Told") -> None:
    print_json(asdict(told), indent=None)
