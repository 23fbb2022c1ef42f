"""Practise: a controller without a board switched on, sequences sent to it, its port served, a desk."""

import shlex
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from footlight import examples, sequence, settings
from footlight.actions.link_to_bench import link_to_bench
from footlight.actions.send_sequence import keep_and_send
from footlight.bench import Bench, tape
from footlight.bench.claim import claimed
from footlight.bench.lamp import Lamp, fitted
from footlight.bench.live import Desk, show, tell
from footlight.bench.pace import Pace
from footlight.bench.referee import watch
from footlight.bench.room import Tray
from footlight.bench.scene import SHA_CHARS, Known, Scene
from footlight.bench.serve import TCP, best_kind, serving
from footlight.folders import user_folder
from footlight.link import slots
from footlight.link.upload import Delivery
from footlight.sequence import Compiled

# A desk is worked at by its keys, or by words of a script.
__all__ = ["NOTEBOOK", "Desk", "Port", "place_of", "practise", "show", "tell"]

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
    return Path(str(named)) if named else user_folder("data") / "bench"


@contextmanager
def practise(
    files: Sequence[Path],
    folder: Path,
    port: Port,
    speed: float,
    for_s: float | None = None,
    interpreter: str | None = None,
    mains_percent: float | None = None,
    sent: Callable[[Delivery], None] = lambda delivery: None,
) -> Iterator[Desk]:
    """A controller switched on in `folder`, with these sequences or the shipped ones, its port served: the
    desk at which a hand works it. Raises FootlightError.

    speed: seconds of the bench for each second. for_s: it ends by itself after so long [s]. mains_percent: a
    lamp burns at so much of its voltage, and a sensor sees it; None: no lamp. sent: hears of each sequence
    that was.
    """
    compiled = [sequence.compile(sequence.load(file)) for file in files or map(examples.path, examples.NAMES)]
    lamp = fitted(Lamp(mains=((0, mains_percent / 100),))) if mains_percent else None
    with claimed(folder), Bench(folder, interpreter, lamp=lamp) as bench:
        tape.keep(bench, folder / TAPE)
        watch(bench, f"python -m footlight.bench.tape {shlex.quote(str(folder / TAPE))}")
        bench.switch_on()
        _send(bench, folder, compiled, not files, sent)
        scene = Scene(bench, {program.sha256[:SHA_CHARS]: _known(program) for program in compiled})
        pace = Pace(bench, speed)
        kind = TCP if port.tcp else best_kind()
        with serving(bench, kind, port=port.number, pace=pace) as address:
            yield Desk(bench, pace, scene, address, for_s)


def _send(
    bench: Bench,
    folder: Path,
    compiled: Sequence[Compiled],
    only_if_empty: bool,
    sent: Callable[[Delivery], None],
) -> None:
    channel = link_to_bench(bench, int(time.time()))
    if only_if_empty and slots.in_use(channel):
        return
    for program in compiled:
        sent(keep_and_send(channel, program, folder / NOTEBOOK, int(time.time())))
    bench.run_for(_SETTLE_MS)


def _known(compiled: Compiled) -> Known:
    trays = [Tray(tray.place, tray.bath or tray.name, tray.tongs) for tray in compiled.sequence.trays]
    return Known(trays, compiled.program["steps"])
