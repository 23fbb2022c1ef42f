"""After each fault, brought about on the real firmware: what the display, `watch`, `collect` and `sheet` say,
whether the light that they tell holds what the gate gave, and whether the rest is then offered as they say.
"""

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from tests.controller.stage import INTERPRETERS, LIGHT, armed, records, status
from tests.host import typed
from tests.system import worst

from footlight import meanings
from footlight.bench import Bench
from footlight.bench.glyphs import read_text
from footlight.bench.process import CPYTHON
from footlight.cli.main import group
from footlight.link import transport
from footlight.report import aftermath
from footlight_core import states as st

SLACK_MS = 1
ON_FLASH = (worst.worn, worst.worn_and_back, worst.full, worst.memory_short)

# A fault that is left standing -> its word, and where a long press leads back to once the cause is gone.
FAULTS: dict[worst.Worst, tuple[str, str]] = {
    worst.stuck: ("STUCK", "ready"),
    worst.stuck_on_a_light: ("STUCK", "held"),
    worst.foot: ("FOOT", "ready"),
    worst.foot_in_a_bath: ("FOOT", "over"),
    worst.wire: ("WIRE", "held"),
    worst.wet: ("WET", "held"),
    worst.welded: ("UNPLUG", "ready"),
    worst.welded_after_a_stop: ("UNPLUG", "held"),
    worst.dead: ("NOLAMP", "held"),
    worst.goes_out: ("NOLAMP", "held"),
    worst.worn: ("NOTES", "held"),
    worst.error: ("ERROR", "held"),
    worst.memory: ("MEMORY", "held"),
    worst.mute: ("GATE", "ready"),
    worst.mute_at_a_stop: ("GATE", "ready"),
    worst.stray: ("STRAY", "ready"),
    worst.stray_at_rest: ("STRAY", "idle"),
    worst.leg: ("LEG", "broken"),
    worst.supply: ("5VOLT", "held"),
    worst.white_open: ("WHITE", "held"),
    worst.lost: ("LOST", "broken"),
    worst.lost_beginning: ("LOST", "idle"),
    worst.mended: ("MENDED", "idle"),
    worst.sensor_rots: ("SENSOR", "idle"),
}
# What forbids a run before it begins is said by its word alone, and no record tells of it.
REFUSALS: dict[worst.Worst, str] = {worst.full: "FULL", worst.memory_short: "MEMORY"}
# How something ended without a fault -> (what the display says, what the computer says).
ENDINGS: dict[worst.Worst, tuple[str, str]] = {
    worst.worn_and_back: (
        "OFF 3.0",
        "1.98 s of 5.00 s given by the records so far; go by the controller's display",
    ),
    worst.stopped: (
        "OFF 3.0",
        "1.98 s of 5.00 s given by the records so far; go by the controller's display",
    ),
    worst.abandoned: ("DEV", "3.02 s not; abandoned at the pedal"),
    worst.cut: (
        "0.0-5.0",
        "cut off, 0.00 s to 5.00 s of 5.00 s given; it may have had all of it: give no more",
    ),
    worst.hung: ("1.9-5.0", "cut off, 1.96 s to 5.00 s of 5.00 s given; it may have had all of it"),
    worst.cut_in_a_bath: ("STEP2", "cut off, its time is not known; count it as done if the sheet stayed"),
}


@dataclass
class Desk:
    """A bench with the commands of the computer beside it."""

    bench: Bench
    book: Path

    def types(self, line: str) -> str:
        """What a command answers."""
        return typed.asked(group, f"{line} --notebook {self.book}")

    def watches(self) -> str:
        """The present moment."""
        return self.types("watch --once --port bench")

    def shows(self) -> list[str]:
        """What the display says in the next seconds, page by page."""
        pages = []
        for _ in range(24):
            pages.append(read_text(self.bench.screen_rows()))
            self.bench.run_for(250)
        return [page for page in dict.fromkeys(pages) if page]

    def lights(self) -> dict[int, tuple[int, int]]:
        """Least and most light of each step of sheet 1, as the notebook has it [ms]."""
        story = json.loads(self.types("sheet 1 --json"))
        rows = [row for run in story["runs"] for row in run["rows"] if row["light"]]
        return {row["step"]: (row["least_ms"], row["most_ms"]) for row in rows}


def at_the_desk(folder: Path, done: worst.Worst, monkeypatch: pytest.MonkeyPatch) -> Iterator[Desk]:
    if done in ON_FLASH and "micropython" not in INTERPRETERS:
        pytest.skip("no flash and no small heap without MicroPython here")
    if done is worst.lost_beginning:
        # The referee's books do not know of records that rot.
        monkeypatch.setattr(Bench, "watchers", [])
    interpreter = CPYTHON if done in (worst.mended, worst.sensor_rots) else None
    with armed(folder / "bench", worst.program_of(done), interpreter=interpreter) as bench:
        monkeypatch.setattr(transport, "open_stream", lambda address: bench.stream())
        done(bench)
        yield Desk(bench, folder / "notebook.sqlite")


def holds(desk: Desk, done: worst.Worst) -> None:
    """What the notebook tells of each light holds what the gate gave."""
    gave, told = worst.given_ms(desk.bench), desk.lights()
    if done is worst.dead:
        # The lamp stayed dark in the second light, whatever the gate did.
        gave[2] = 0.0
    for step, light_ms in gave.items():
        least_ms, most_ms = told[step]
        if done is worst.mute_at_a_stop:
            # Recorded as given whole, as is said: at most so much.
            least_ms = 0
        assert least_ms - SLACK_MS <= light_ms <= most_ms + SLACK_MS, f"step {step}"


def mended(bench: Bench) -> None:
    """The cause is gone, and a long press says so."""
    bench.sense(worst.DARK_V)
    bench.wear_out()
    bench.spoil_coil("")
    bench.run_for(1_500)
    bench.hold()
    bench.run_for(200)


@pytest.mark.parametrize("done", FAULTS, ids=lambda done: done.__name__)
def test_after_a_fault(tmp_path: Path, done: worst.Worst, monkeypatch: pytest.MonkeyPatch):
    word, state = FAULTS[done]
    for desk in at_the_desk(tmp_path, done, monkeypatch):
        bench = desk.bench
        desk.bench.run_for(100)
        code = status(bench)["fault"]
        advice = aftermath.of_fault(code)
        assert st.fault_word(code) == word and not bench.lamp
        assert word in desk.shows()
        watched, collected = desk.watches(), desk.types("collect --port bench")
        assert advice.happened in watched and advice.do in watched and advice.check in watched
        if done is worst.worn:
            assert "fault" not in desk.types("sheet 1"), "no record of it can be written"
        else:
            whose = "in no run" if state == "idle" else "sheet 1"
            assert f"{whose}: {advice.text}" in collected
            assert (advice.text in desk.types("sheet 1")) == (whose == "sheet 1")
        holds(desk, done)
        left_ms = status(bench)["left_ms"]
        mended(bench)
        assert status(bench)["state"] == state and not bench.lamp
        if state == "held":
            gave_ms = worst.given_ms(bench).get(status(bench)["step"], 0.0)
            had_ms = 0.0 if done is worst.dead else gave_ms
            assert abs(int(LIGHT["time_ms"]) - had_ms - left_ms) <= SLACK_MS, "the rest is what is offered"
        desk.types("collect --port bench")
        holds(desk, done)


@pytest.mark.parametrize("done", (worst.mute, worst.mute_at_a_stop), ids=lambda done: done.__name__)
def test_a_gate_that_did_not_report_counts_whole_and_no_more_is_offered(
    tmp_path: Path, done: worst.Worst, monkeypatch: pytest.MonkeyPatch
):
    for desk in at_the_desk(tmp_path, done, monkeypatch):
        assert "go by the controller's display" not in desk.types("collect --port bench")
        mended(desk.bench)
        (gave,) = records(desk.bench, "gave")
        assert (gave["light_ms"], gave["left_ms"], gave["how"]) == (5_000, 0, "broken")
        assert status(desk.bench)["step"] == 2


def test_notes_that_come_back_wait_until_the_flash_does(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """Long presses do not lead out, and what they try to write is still there when one does."""
    for desk in at_the_desk(tmp_path, worst.worn, monkeypatch):
        for _ in range(40):
            desk.bench.hold()
            desk.bench.run_for(300)
            assert status(desk.bench)["fault"] == st.NO_RECORD
        mended(desk.bench)
        assert status(desk.bench)["state"] == "held"
        told = desk.types("collect --port bench")
        assert aftermath.of_fault(st.NO_RECORD).text in told and "damaged" not in told
        numbers = [record["n"] for record in records(desk.bench)]
        assert numbers == list(range(numbers[0], numbers[0] + len(numbers)))
        holds(desk, worst.worn)


@pytest.mark.parametrize("done", REFUSALS, ids=lambda done: done.__name__)
def test_what_forbids_a_run(tmp_path: Path, done: worst.Worst, monkeypatch: pytest.MonkeyPatch):
    for desk in at_the_desk(tmp_path, done, monkeypatch):
        assert REFUSALS[done] in desk.shows()
        assert status(desk.bench)["state"] == "idle" and len(records(desk.bench, "arm")) == 1
        assert "FAULT" not in desk.watches()
        assert aftermath.of_fault(0).check not in desk.types("collect --port bench")


def test_collect_makes_room_as_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    for desk in at_the_desk(tmp_path, worst.full, monkeypatch):
        desk.types("collect --port bench")
        desk.bench.hold()
        desk.bench.run_for(300)
        assert status(desk.bench)["state"] == "pick"


@pytest.mark.parametrize("done", ENDINGS, ids=lambda done: done.__name__)
def test_after_an_ending(tmp_path: Path, done: worst.Worst, monkeypatch: pytest.MonkeyPatch):
    shown, said = ENDINGS[done]
    for desk in at_the_desk(tmp_path, done, monkeypatch):
        desk.bench.run_for(1_500)
        pages = desk.shows()
        assert shown in pages
        bounds = [page for page in pages if re.fullmatch(r"\d+\.\d-\d+\.\d", page)]
        for least_s, most_s in (map(float, page.split("-")) for page in bounds):
            assert least_s * 1000 <= worst.given_ms(desk.bench)[1] < most_s * 1000 + 100
        watched, collected = desk.watches(), desk.types("collect --port bench")
        assert "FAULT" not in watched and ("cut off" in watched) == ("CUT" in pages)
        assert said in collected and said in desk.types("sheet 1")
        holds(desk, done)


def test_every_word_is_met():
    met = {word for word, _ in FAULTS.values()} | set(REFUSALS.values())
    assert met == set(meanings.FAULTS)
