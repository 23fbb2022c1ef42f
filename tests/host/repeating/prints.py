"""Prints made on the bench, their journal brought home: what `again`, `beside` and the pages start from."""

import shutil
from pathlib import Path

from tests.host import typed

from footlight import examples, sequence
from footlight.actions import collect_journal, send_sequence
from footlight.bench import Bench
from footlight.bench.feet import Feet, Slip
from footlight.cli.main import group
from footlight.link.channel import Channel

# 2026-03-01 18:00:00 UTC.
EVENING = 1_772_388_000
BOOK = "notebook.sqlite"


def files(folder: Path, *names: str) -> list[Path]:
    """Shipped sequences and their light setups, copied into a folder."""
    shutil.copy(examples.path("x").with_name(examples.SETUPS), folder)
    return [Path(shutil.copy(examples.path(name), folder)) for name in names]


def made(folder: Path, prints: list[tuple[Path, dict[int, Slip]]]) -> Path:
    """A notebook in which these sequences were sent and carried out, a sheet each, with the foot's slips.

    Sheets are numbered from 1. Returns the notebook's path.
    """
    book = folder / BOOK
    titles: list[str] = []
    with Bench(folder / "bench") as bench:
        bench.switch_on()
        for path, slips in prints:
            compiled = sequence.compile(sequence.load(path))
            send_sequence.keep_and_send(greeted(bench), compiled, book, EVENING)
            bench.run_for(3000)
            feet = Feet(bench)
            titles += [] if (title := compiled.program["title"]) in titles else [title]
            feet.arm(titles.index(title), compiled.program["sheets"] > 1)
            feet.carry_out(compiled.program, slips)
            feet.put_away()
        collect_journal.bring_home(greeted(bench), book, EVENING + 3600)
    return book


def greeted(bench: Bench) -> Channel:
    """A link to the controller in the bench's own time, which is told the date."""
    stream = bench.stream()
    channel = Channel(stream, clock=stream.clock)
    channel.greet(unix_s=EVENING + bench.now_ms // 1000)
    return channel


def asked(*words: object) -> str:
    """What a command printed."""
    return typed.asked(group, [f"{word}" for word in words])


def refused(*words: object) -> str:
    """The one line by which a command refused."""
    return typed.refused(group, [f"{word}" for word in words])
