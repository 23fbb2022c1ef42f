"""The whole job on the bench, in the order in which a printer would do it, with what goes wrong."""

import shutil
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from footlight import examples, sequence
from footlight.actions.collect_journal import Home, bring_home
from footlight.actions.draw_run import draw_last_run
from footlight.actions.give_light_twice import Twice, give_light_twice
from footlight.actions.link_to_bench import link_to_bench
from footlight.actions.send_sequence import keep_and_send
from footlight.bench import Bench
from footlight.bench.feet import Feet, Slip
from footlight.bench.looks import Look, Looks
from footlight.bench.referee import Referee
from footlight.errors import InputError, field
from footlight.link.upload import Delivery
from footlight.notebook.book import notebook
from footlight.notebook.sheets import by_number
from footlight.notebook.sheets.by_number import Story
from footlight.sequence import Compiled

MARK = ".made-by-footlight-demo"
# What goes wrong, by the number of the step in the example.
SLIPS = {2: Slip(late_ms=12_000), 7: Slip(stop_ms=3500), 8: Slip(cut_ms=30_000)}
_SEQUENCES = ("pre-flash", "reversal-print")
_SETTLE_MS = 3000
_FLASH_LOOKS = ("a title", "pencil the number", "ready for the light", "done")


@dataclass(frozen=True)
class Planned:
    """The wet sequence, checked and compiled."""

    compiled: Compiled


@dataclass(frozen=True)
class Uploaded:
    """What went over the link, and what runs the firmware."""

    interpreter: str
    deliveries: tuple[tuple[Compiled, Delivery], ...]


@dataclass(frozen=True)
class Flashed:
    """The batch of dry sheets, and looks at the display."""

    sheets: int
    looks: list[Look]


@dataclass(frozen=True)
class Processed:
    """The wet run, and looks at the display."""

    looks: list[Look]


@dataclass(frozen=True)
class Recorded:
    """The journal at home, the sheet's story, and the picture of it."""

    home: Home
    story: Story
    picture: Path


@dataclass(frozen=True)
class Closed:
    """darkroom_min: how long all of it would have lasted [min]; took_s: how long it did [s]. events: of the
    hardware, all watched by the referee. book: the notebook that it left."""

    darkroom_min: float
    took_s: float
    events: int
    book: Path


Chapter = Planned | Uploaded | Flashed | Processed | Recorded | Twice | Closed


def fresh(folder: Path) -> Path:
    """The folder, empty. Raises InputError rather than deleting what the demo did not make."""
    if folder.exists() and any(folder.iterdir()):
        if not (folder / MARK).exists():
            raise InputError(
                f"{field('folder')} {folder}: holds other files; name a folder that is new or empty"
            )
        shutil.rmtree(folder)
    folder.mkdir(parents=True, exist_ok=True)
    (folder / MARK).touch()
    return folder


def demonstrate(folder: Path, tell: Callable[[Chapter], None], interpreter: str | None = None) -> None:
    """Make an invented print in `folder`, emptied first; `tell` hears each chapter as it ends.

    Raises InputError for a folder of somebody else's, BreachError where the firmware breaks a rule.
    """
    folder = fresh(folder)
    start_s = time.perf_counter()
    flash, reversal = (sequence.compile(sequence.load(examples.path(name))) for name in _SEQUENCES)
    tell(Planned(reversal))
    with Bench(folder / "bench", interpreter) as bench:
        referee = Referee(bench, replay="footlight demo")
        looks = Looks(bench)
        bench.switch_on()
        tell(_upload(bench, folder, [flash, reversal]))
        tell(_pre_flash(bench, looks, flash))
        tell(_wet_run(bench, looks, reversal))
        tell(_record(bench, folder))
        referee.finish()
        tell(give_light_twice(folder / "two-lights", folder / "two-lights.png"))
        took_s, book = time.perf_counter() - start_s, folder / "notebook.sqlite"
        tell(Closed(bench.now_ms / 60_000, took_s, len(bench.events), book))


def _upload(bench: Bench, folder: Path, programs: list[Compiled]) -> Uploaded:
    channel, book = link_to_bench(bench, int(time.time())), folder / "notebook.sqlite"
    deliveries = [
        (compiled, keep_and_send(channel, compiled, book, int(time.time()))) for compiled in programs
    ]
    bench.run_for(_SETTLE_MS)
    return Uploaded(bench.interpreter, tuple(deliveries))


def _pre_flash(bench: Bench, looks: Looks, flash: Compiled) -> Flashed:
    feet = Feet(bench, looks.only(*_FLASH_LOOKS))
    feet.arm(0, is_batch=True)
    feet.carry_out(flash.program)
    feet.put_away()
    return Flashed(flash.program["sheets"], looks.take())


def _wet_run(bench: Bench, looks: Looks, reversal: Compiled) -> Processed:
    feet = Feet(bench, looks.any())
    feet.arm(1, is_batch=False)
    feet.carry_out(reversal.program, SLIPS)
    feet.put_away()
    return Processed(looks.take())


def _record(bench: Bench, folder: Path) -> Recorded:
    book = folder / "notebook.sqlite"
    home = bring_home(link_to_bench(bench, int(time.time())), book, int(time.time()))
    with notebook(book, writing=False) as connection:
        story = by_number.story(connection, by_number.find(connection, 1))
        for name in ("time-line.svg", "time-line.png"):
            draw_last_run(connection, story, folder / name)
    return Recorded(home, story, folder / "time-line.png")
