"""`footlight bench`: a controller without a board, under your own foot."""

from pathlib import Path

import click

from footlight.cli.options import json_option


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
      footlight watch --port /dev/pts/5          (in another terminal)
      (sleep 4; echo long; sleep 2; echo long) | footlight bench --plain --for 10
    """
    from footlight.cli import benching

    place = benching.place_of(folder)
    port = benching.Port(tcp or tcp_port is not None, tcp_port or 0)
    benching.work(files, place, port, speed, benching.manner(plain, as_json), for_s, interpreter)
