"""A live bench is kept on a tape, and the tape brings the same about again, to the microsecond."""

import shutil
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from tests.controller.stage import INTERPRETERS, SHORT_RUN, send

from footlight.bench import Bench, live, tape
from footlight.bench import events as ev
from footlight.bench.events import Event
from footlight.bench.pace import Pace
from footlight.bench.referee import BreachError, watch
from footlight.bench.scene import Scene
from footlight.bench.serve import TCP, serving
from footlight.firmware_files import firmware_folders

SPEED = 50.0


def spoilt(folder: Path) -> list[Path]:
    """A firmware that records ten times the light that was given."""
    for source in firmware_folders():
        shutil.copytree(source, folder, dirs_exist_ok=True, ignore=shutil.ignore_patterns("__pycache__"))
    actions = folder / "footlight_core" / "actions.py"
    text, gave = actions.read_text(), "run.sheet, run.gate_ms, run.light_ms,"
    assert text.count(gave) == 1
    actions.write_text(text.replace(gave, "run.sheet, run.gate_ms * 10, run.light_ms,"))
    return [folder]


def feet(desk: live.Desk) -> None:
    """Somebody at the keys: a bath, ended early; power off and on; back, and a light that is stopped."""
    wait(desk)
    moves = [desk.long, desk.long, desk.tap, desk.long, desk.power, desk.power]
    # Back at the light that was ready; 'no more' is passed over, the most is chosen.
    moves += [desk.long, desk.tap, desk.long, desk.tap, desk.tap]
    for move in moves:
        move()
        wait(desk)
    desk.end()


def wait(desk: live.Desk) -> None:
    """Some seconds of the bench, however slow the machine is."""
    until_ms = desk.bench.now_ms + 4_000
    while desk.bench.now_ms < until_ms and not desk.pace.stopped.is_set():
        time.sleep(0.005)


def lived(folder: Path, firmware: list[Path] | None, interpreter: str) -> str:
    """A live bench with a tape -> the breach that ended it, if one did."""
    (folder / "bench").mkdir()
    with Bench(folder / "bench", interpreter, firmware=firmware) as before:
        before.switch_on()
        send(before, SHORT_RUN)
    with Bench(folder / "bench", interpreter, firmware=firmware) as bench:
        tape.keep(bench, folder / "tape")
        watch(bench, "the tape")
        bench.switch_on()
        pace = Pace(bench, SPEED)
        desk = live.Desk(bench, pace, Scene(bench, {}), "nowhere", for_s=60)
        try:
            with serving(bench, TCP, pace=pace):
                someone = threading.Thread(target=feet, args=(desk,))
                someone.start()
                for _ in desk.moments():
                    continue
                someone.join()
        except BreachError as error:
            return str(error)
    return ""


@contextmanager
def heard() -> Iterator[list[Event]]:
    """Every event of the last bench that is made meanwhile."""
    events: list[Event] = []

    def listen(bench: Bench) -> None:
        events.clear()
        bench.listeners.append(events.append)

    with pytest.MonkeyPatch.context() as ears:
        ears.setattr(Bench, "watchers", [listen])
        yield events


def up_to_breach(events: list[Event]) -> list[Event]:
    """With the first record of a light, which is the spoilt one."""
    told = next(at for at, event in enumerate(events) if event.kind == ev.RECORD and '"gave"' in event.text)
    return events[: told + 1]


@pytest.mark.parametrize("interpreter", INTERPRETERS)
def test_a_breach_comes_again_at_the_same_microsecond(tmp_path: Path, interpreter: str):
    firmware = spoilt(tmp_path / "firmware")
    with heard() as live_events:
        breach = lived(tmp_path, firmware, interpreter)
    assert "I14: " in breach
    for again in ("one", "two"):
        with heard() as events, pytest.raises(BreachError) as caught:
            tape.play(tmp_path / "tape", tmp_path / again, firmware, "the tape")
        assert str(caught.value) == breach
        assert up_to_breach(events) == up_to_breach(live_events)


@pytest.mark.parametrize("interpreter", INTERPRETERS)
def test_a_tape_without_a_breach(tmp_path: Path, interpreter: str):
    with heard() as live_events:
        assert lived(tmp_path, None, interpreter) == ""
    with heard() as events:
        tape.play(tmp_path / "tape", tmp_path / "again")
    assert len(events) > 100 and events == live_events


def test_the_command_leaves_a_tape_that_plays(tmp_path: Path):
    run = "from footlight.cli.main import run; run()"
    words = ["bench", "--plain", "--for", "2", "--folder", str(tmp_path)]
    subprocess.run([sys.executable, "-c", run, *words], input=b"tap\n", check=True, capture_output=True)
    played = [sys.executable, "-m", "footlight.bench.tape", str(tmp_path / "tape")]
    done = subprocess.run(played, check=True, capture_output=True, text=True)
    assert done.stdout.startswith("no breach in ")
