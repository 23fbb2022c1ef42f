"""What `bench` does: a controller switched on, sequences sent to it, its port served, a desk to work at."""

import json
import shlex
import signal
import sys
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from pathlib import Path

import click
import platformdirs

from footlight import examples, sequence, settings
from footlight.bench import Bench, live, tape
from footlight.bench.claim import claimed
from footlight.bench.pace import Pace
from footlight.bench.referee import watch
from footlight.bench.room import Tray
from footlight.bench.scene import SHA_CHARS, Known, Scene, Told
from footlight.bench.serve import TCP, best_kind, serving
from footlight.cli import sending, terminal
from footlight.cli.options import hint, is_quiet
from footlight.link import slots
from footlight.link.channel import Channel
from footlight.sequence import Compiled

PICTURE, LINES, JSON = "picture", "lines", "json"
NOTEBOOK = "notebook.sqlite"
TAPE = "tape"
_SETTLE_MS = 1000


@dataclass(frozen=True)
class Port:
    """How the bench is to be reached. number: TCP port, 0 = any free one."""

    tcp: bool
    number: int


def place_of(folder: Path | None) -> Path:
    """The folder of the bench; that of the settings, or the platform's own for data, if none is named."""
    named = folder or settings.held("bench").value
    return Path(str(named)) if named else platformdirs.user_data_path("footlight", appauthor=False) / "bench"


def manner(plain: bool, as_json: bool) -> str:
    """A picture for a person at a terminal; lines for everything else."""
    if as_json:
        return JSON
    return PICTURE if sys.stdin.isatty() and sys.stdout.isatty() and not plain else LINES


def work(
    files: Sequence[Path],
    folder: Path,
    port: Port,
    speed: float,
    shown: str,
    for_s: float | None,
    interpreter: str | None,
) -> None:
    """The bench from switching on to its end."""
    compiled = [_compiled(file) for file in files or map(examples.path, examples.NAMES)]
    with claimed(folder), _ended_by_signals(), Bench(folder, interpreter) as bench:
        tape.keep(bench, folder / TAPE)
        watch(bench, f"python -m footlight.bench.tape {shlex.quote(str(folder / TAPE))}")
        bench.switch_on()
        _send(bench, folder, compiled, only_if_empty=not files)
        scene = Scene(bench, {one.sha256[:SHA_CHARS]: _known(one) for one in compiled})
        pace = Pace(bench, speed)
        kind = TCP if port.tcp else best_kind()
        with serving(bench, kind, port=port.number, pace=pace) as address:
            _tell_address(address, folder, shown)
            _work_at(live.Desk(bench, pace, scene, address, for_s), shown)
    hint(f"the bench is off; its flash and practice notebook are kept in {folder}")


def _compiled(file: Path) -> Compiled:
    return sequence.compile(sequence.load(file))


def _send(bench: Bench, folder: Path, compiled: Sequence[Compiled], only_if_empty: bool) -> None:
    stream = bench.stream()
    channel = Channel(stream, clock=stream.clock)
    channel.greet(unix_s=int(time.time()))
    if only_if_empty and slots.in_use(channel):
        return
    for one in compiled:
        sent = sending.keep_and_send(channel, one, folder / NOTEBOOK, int(time.time()))
        if not is_quiet():
            click.echo(f"{sent.title} is in slot {sent.slot}", err=True)
    bench.run_for(_SETTLE_MS)


def _known(compiled: Compiled) -> Known:
    trays = [Tray(tray.place, tray.bath or tray.name, tray.tongs) for tray in compiled.sequence.trays]
    return Known(trays, compiled.program["steps"])


def _tell_address(address: str, folder: Path, shown: str) -> None:
    # On the standard output where a script reads it, and there first of all.
    if shown == JSON:
        click.echo(json.dumps({"port": address, "notebook": str(folder / NOTEBOOK)}))
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


def _work_at(desk: live.Desk, shown: str) -> None:
    if shown == PICTURE:
        with terminal.free(sys.stdout):
            live.show(desk)
    else:
        live.tell(desk, _as_json if shown == JSON else _as_line)


def _as_line(told: Told) -> None:
    minutes, rest_ms = divmod(told.t_ms, 60_000)
    click.echo(f"{minutes}:{rest_ms / 1000:06.3f}  {told.kind:<8}  {told.text}".rstrip())


def _as_json(told: Told) -> None:
    click.echo(json.dumps(asdict(told), ensure_ascii=False))
