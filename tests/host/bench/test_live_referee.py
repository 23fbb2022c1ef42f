"""The referee sits at the bench also when a person works there, and the bench's memory does not grow."""

import json
import threading
import time
from pathlib import Path

import pytest
from tests.controller.stage import SHORT_RUN, channel, send

from footlight.bench import Bench, live
from footlight.bench.events import Event
from footlight.bench.pace import Pace
from footlight.bench.referee import BreachError, Referee, watch
from footlight.bench.scene import Scene
from footlight.bench.serve import TCP, serving


def test_every_bench_of_a_test_has_a_referee_and_a_ledger(tmp_path: Path, referee: list[Referee]):
    with Bench(tmp_path) as bench:
        bench.switch_on()
        bench.run_for(100)
        assert len(referee) == 1
        one, other = bench.listeners
        with pytest.raises(BreachError, match=r"I4: .*replay: pytest .*test_every_bench"):
            one(Event(bench.now_us + 1, "pump", "1"))
        arm = {"n": 9, "k": "arm", "sheet": 1, "sheets": 1, "sha": "", "run": 1}
        with pytest.raises(BreachError, match=r"I18 at .*sheet ledger: .*; pytest .*test_every_bench"):
            for _ in range(2):
                other(Event(bench.now_us + 2, "record", json.dumps(arm)))


def test_what_was_said_is_forgotten_and_the_referee_still_knows_the_program(tmp_path: Path):
    with Bench(tmp_path) as bench:
        watch(bench, "here")
        bench.switch_on()
        scene = Scene(bench, {})
        sha = send(bench, SHORT_RUN)
        scene.take_told()
        assert bench.heard == [] and len(bench.events) == 1
        for _ in range(50):
            channel(bench).ask("status")
            scene.take_told()
            assert bench.heard == []
        bench.hold()
        bench.run_for(700)
        bench.hold()
        bench.run_for(700)
        armed = [json.loads(event.text) for event in bench.events if event.kind == "record"]
        assert any(record.get("sha") == sha[:16] for record in armed)


@pytest.fixture
def referee_of_all(referee: list[Referee], monkeypatch: pytest.MonkeyPatch) -> None:
    """None here: the breach is planted."""
    monkeypatch.setattr(Bench, "watchers", [])


@pytest.mark.usefixtures("referee_of_all")
def test_a_breach_ends_a_live_bench_with_its_words(tmp_path: Path):
    with Bench(tmp_path) as bench:
        watch(bench, "seed 1")
        bench.switch_on()
        pace, told = Pace(bench), []

        def plant() -> None:
            time.sleep(0.3)
            with bench.lock:
                bench.listeners.append(lambda event: referee_hears(bench))

        threading.Thread(target=plant).start()
        desk = live.Desk(bench, pace, Scene(bench, {}), "nowhere", for_s=20)
        with pytest.raises(BreachError, match=r"I4: .*\(replay: seed 1\)"), serving(bench, TCP, pace=pace):
            live.tell(desk, told.append)
    assert told


def referee_hears(bench: Bench) -> None:
    """What a firmware that pumps without a gate would be."""
    bench.listeners[0](Event(bench.now_us, "pump", "1"))
