"""What `demo` does, in the order in which a printer would."""

import shutil
import time
from pathlib import Path

import click

from footlight import sequence
from footlight.bench import Bench
from footlight.bench.feet import Feet, Slip
from footlight.bench.referee import Referee
from footlight.cli import homecoming, picture, sending, sheet
from footlight.cli.moments import Moments
from footlight.errors import InputError
from footlight.link.channel import Channel
from footlight.notebook.book import notebook
from footlight.notebook.sheets import by_number
from footlight.notebook.sheets.by_number import Story
from footlight.sequence import Compiled
from footlight.sequence.plan import plan

EXAMPLES = Path(sequence.__file__).parents[1] / "examples"
MARK = ".made-by-footlight-demo"
# What goes wrong, by the number of the step in the example.
SLIPS = {2: Slip(late_ms=12_000), 7: Slip(stop_ms=3500), 8: Slip(cut_ms=30_000)}


def fresh(folder: Path) -> Path:
    """The folder, empty. Raises InputError rather than deleting what the demo did not make."""
    if folder.exists() and any(folder.iterdir()):
        if not (folder / MARK).exists():
            raise InputError(f"--folder {folder}: holds other files; name a folder that is new or empty")
        shutil.rmtree(folder)
    folder.mkdir(parents=True, exist_ok=True)
    (folder / MARK).touch()
    return folder


def show(folder: Path, interpreter: str | None) -> None:
    """Everything, told as it goes on."""
    start_s = time.perf_counter()
    flash, reversal = (_compiled(name) for name in ("pre-flash", "reversal-print"))
    _title("The plan")
    click.echo("\n".join(plan(reversal)))
    with Bench(folder / "bench", interpreter) as bench:
        referee = Referee(bench, replay="footlight demo")
        moments = Moments(bench)
        bench.switch_on()
        _upload(bench, folder, [flash, reversal])
        _pre_flash(bench, moments, flash)
        _wet_run(bench, moments, reversal)
        _record(bench, folder)
        referee.finish()
        _close(bench, start_s)


def _compiled(name: str) -> Compiled:
    return sequence.compile(sequence.load(EXAMPLES / f"{name}.toml"))


def _title(text: str) -> None:
    click.echo(f"\n── {text} {'─' * max(0, 96 - len(text))}\n")


def _channel(bench: Bench) -> Channel:
    """A greeted link to the controller, in the bench's own time."""
    stream = bench.stream()
    channel = Channel(stream, clock=stream.clock)
    channel.greet(unix_s=int(time.time()))
    return channel


def _upload(bench: Bench, folder: Path, compiled: list[Compiled]) -> None:
    _title("Over the link to the controller's firmware")
    click.echo(f"The firmware runs on {bench.interpreter}.")
    channel = _channel(bench)
    for one in compiled:
        sent = sending.keep_and_send(channel, one, folder / "notebook.sqlite", int(time.time()))
        click.echo(f"{sent.title}: {len(one.data)} bytes into slot {sent.slot}, hash {sent.sha256[:8]}")
    bench.run_for(3000)


def _pre_flash(bench: Bench, moments: Moments, flash: Compiled) -> None:
    _title(f"Pre-flash: a batch of {flash.program['sheets']} dry sheets")
    feet = Feet(bench, moments.only("a title", "pencil the number", "ready for the light", "done"))
    feet.arm(0, is_batch=True)
    feet.carry_out(flash.program)
    feet.put_away()
    moments.print()


def _wet_run(bench: Bench, moments: Moments, reversal: Compiled) -> None:
    _title("The wet run of the first sheet: one bath over time, one light stopped, one power cut")
    feet = Feet(bench, moments.any())
    feet.arm(1, is_batch=False)
    feet.carry_out(reversal.program, SLIPS)
    feet.put_away()
    moments.print()


def _record(bench: Bench, folder: Path) -> None:
    _title("The journal comes home")
    book = folder / "notebook.sqlite"
    home = homecoming.bring_home(_channel(bench), book, int(time.time()))
    click.echo("\n".join(homecoming.lines(home)))
    with notebook(book, writing=False) as connection:
        story = by_number.story(connection, by_number.find(connection, 1))
        _title("Sheet 1, planned against given")
        _tell(story)
        for name in ("time-line.svg", "time-line.png"):
            picture.draw_last_run(connection, story, folder / name)
    click.echo(f"\nThe picture of it: {folder / 'time-line.png'} (and .svg)")


def _tell(story: Story) -> None:
    for part in story.runs:
        click.echo("\n".join(sheet.part_lines(part, arithmetic=True)))
        click.echo()


def _close(bench: Bench, start_s: float) -> None:
    minutes = bench.now_ms / 60_000
    click.echo(
        f"\n{minutes:.0f} minutes of darkroom in {time.perf_counter() - start_s:.1f} s; "
        f"{len(bench.events)} events of its hardware watched, no rule broken."
    )
    click.echo(
        "Everything shown here is invented. Next: 'footlight bench' puts the pedal under your own foot."
    )
