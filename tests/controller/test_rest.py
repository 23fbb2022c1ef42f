"""The controller at rest: power cuts in states that write nothing, and bits that fall over in its files.

What was seen from outside on caaac8f, each on the whole firmware; the same by the thousand over a journal in
memory: in_process/test_cuts_at_rest.py and test_rot.py.
"""

import json
from pathlib import Path
from typing import Any

import pytest
from tests.controller.stage import (
    BATH,
    LIGHT,
    armed,
    channel,
    gate_ms,
    program,
    records,
    state,
    status,
    switched_on,
)

from footlight.bench import Bench
from footlight.bench import events as ev
from footlight.bench.glyphs import read_text
from footlight.bench.process import CPYTHON
from footlight.link import journal
from footlight.link.errors import RefusedError
from footlight_core import states as st

DEAD_MS = int(LIGHT["dead_ms"])
PAUSE = {"kind": "pause", "name": "look", "show": "LOOK", "white": 1}


def cut_and_start(bench: Bench) -> None:
    bench.cut_power()
    bench.run_for(1_000)
    bench.switch_on()
    bench.run_for(300)


def shown(bench: Bench, span_ms: int = 12_000) -> set[str]:
    """What the display says in turn."""
    pages = set()
    for _ in range(span_ms // 200):
        bench.run_for(200)
        pages.add(read_text(bench.screen_rows()))
    return pages


def light_ms(bench: Bench) -> float:
    """All the light that the lamp has given, by the gate."""
    return sum(span_ms - DEAD_MS for span_ms in gate_ms(bench))


def tap(bench: Bench, then_ms: float = 700) -> None:
    bench.run_for(700)
    bench.tap()
    bench.run_for(then_ms)


def hold(bench: Bench) -> None:
    bench.run_for(700)
    bench.hold()
    bench.run_for(700)


def place(bench: Bench) -> tuple[str, int]:
    said = status(bench)
    return said["state"], said["step"]


def bounds(bench: Bench) -> tuple[int, int, int]:
    cut = records(bench, "cut")[-1]
    return cut["step"], cut["least_ms"], cut["most_ms"]


def whole(bench: Bench) -> None:
    tap(bench, 6_000)


def short(bench: Bench) -> None:
    tap(bench, 4_950)
    bench.tap()


def abandoned(bench: Bench) -> None:
    tap(bench, 2_000)
    bench.tap()
    hold(bench)


def skipped(bench: Bench) -> None:
    hold(bench)
    tap(bench)
    tap(bench)
    hold(bench)


@pytest.mark.parametrize("ending", (whole, short, abandoned, skipped), ids=lambda ending: ending.__name__)
def test_what_has_ended_is_not_offered_again(tmp_path: Path, ending: Any):
    """Three cuts at rest, and the run stands at the next step each time."""
    with armed(tmp_path, program(LIGHT | {"least_ms": 200}, BATH, LIGHT)) as bench:
        ending(bench)
        had_ms = light_ms(bench)
        for _ in range(3):
            cut_and_start(bench)
            assert place(bench) == ("broken", 2) and bounds(bench) == (2, 0, 0)
            assert "STEP2" in shown(bench)
        hold(bench)
        assert place(bench) == ("ready", 2)
        tap(bench, 20_500)
        tap(bench)
        assert place(bench) == ("ready", 3) and light_ms(bench) == had_ms


def test_a_bath_a_pause_and_the_way_back_are_kept_too(tmp_path: Path):
    with armed(tmp_path, program(BATH, PAUSE | {"white": 0}, BATH, LIGHT)) as bench:
        tap(bench, 20_500)
        tap(bench)
        cut_and_start(bench)
        hold(bench)
        assert place(bench) == ("paused", 2)
        tap(bench)
        cut_and_start(bench)
        hold(bench)
        assert place(bench) == ("ready", 3)
        hold(bench)
        tap(bench)
        hold(bench)
        assert place(bench) == ("paused", 2)
        cut_and_start(bench)
        assert place(bench) == ("broken", 2)


def test_a_white_pause_lights_up_only_once_the_cut_is_answered(tmp_path: Path):
    with armed(tmp_path, program(LIGHT, PAUSE, BATH)) as bench:
        whole(bench)
        assert bench.white
        cut_and_start(bench)
        assert place(bench) == ("broken", 2) and not bench.white
        hold(bench)
        assert place(bench) == ("paused", 2) and bench.white


def test_cut_with_a_part_given(tmp_path: Path):
    """268 of 700 ms recorded: told 268 to 700, and never more than the rest is offered."""
    with armed(tmp_path, program(LIGHT | {"time_ms": 700}, BATH)) as bench:
        tap(bench, 200)
        bench.tap()
        had_ms = light_ms(bench)
        assert 0 < had_ms < 500
        cut_and_start(bench)
        step, least_ms, most_ms = bounds(bench)
        assert step == 1 and least_ms - 1 <= had_ms <= least_ms + 1 and most_ms == 700
        hold(bench)
        assert place(bench) == ("doubt", 1)
        assert shown(bench, 1_000) == {"NONE"}
        tap(bench)
        assert shown(bench, 1_000) == {f"MAX {(700 - least_ms) / 1000 - 0.05:.1f}"}
        hold(bench)
        assert {"HAD", f"{had_ms / 1000 - 0.05:.1f}-0.7"} <= shown(bench)
        tap(bench, 2_000)
        assert abs(light_ms(bench) - 700) <= 1 and state(bench) == "ready"


def test_a_loop_that_stood_still_in_a_light(tmp_path: Path):
    """0.7 s into 2.4 s: told 0.7 to 2.4, and at most the rest is offered."""
    with armed(tmp_path, program(LIGHT | {"time_ms": 2_400}, BATH)) as bench:
        tap(bench, 700)
        bench.hang()
        bench.run_for(6_000)
        step, least_ms, most_ms = bounds(bench)
        assert step == 1 and 500 <= least_ms <= 750 and most_ms == 2_400
        hold(bench)
        tap(bench)
        hold(bench)
        assert status(bench)["left_ms"] == 2_400 - least_ms


def test_a_loop_that_stood_still_while_it_was_dark(tmp_path: Path):
    """Then it is known to the moment what the sheet has had: the rest is offered, and nothing is asked."""
    with armed(tmp_path, program(LIGHT, BATH)) as bench:
        tap(bench, 2_000)
        bench.tap()
        bench.run_for(500)
        had_ms = light_ms(bench)
        bench.hang()
        bench.run_for(6_000)
        step, least_ms, most_ms = bounds(bench)
        assert step == 1 and least_ms == most_ms and abs(least_ms - had_ms) <= 1
        hold(bench)
        assert place(bench) == ("ready", 1) and status(bench)["left_ms"] == 5_000 - least_ms
        tap(bench, 6_000)
        assert abs(light_ms(bench) - 5_000) <= 1


def test_bounds_over_three_cuts_in_one_light(tmp_path: Path):
    with armed(tmp_path, program(LIGHT, BATH)) as bench:
        tap(bench, 2_000)
        bench.tap()
        had_ms = light_ms(bench)
        for cuts in range(1, 4):
            cut_and_start(bench)
            step, least_ms, most_ms = bounds(bench)
            assert step == 1 and abs(least_ms - had_ms) <= 1
            assert most_ms == 5_000 + (cuts - 1) * (5_000 - least_ms)
            hold(bench)
            tap(bench)
            hold(bench)
            assert place(bench) == ("ready", 1) and status(bench)["left_ms"] == 5_000 - least_ms


# -- rot -------------------------------------------------------------------------------------------


def data_of(bench: Bench, name: str) -> Path:
    return next(path for path in (bench.folder / "flash").rglob(name) if path.is_file())


def flip(path: Path, *at: int) -> None:
    data = bytearray(path.read_bytes())
    for place in at:
        data[place] ^= 1
    path.write_bytes(data)


def done(bench: Bench) -> None:
    """The sheet is carried to its end and put away."""
    whole(bench)
    tap(bench, 20_500)
    tap(bench)
    assert state(bench) == "done"
    tap(bench)


def another_sheet(bench: Bench) -> int:
    """The next new sheet that is armed."""
    hold(bench)
    hold(bench)
    return records(bench, "arm")[-1]["sheet"]


def test_rot_in_the_last_records(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """Said, kept, a new epoch; the next sheet has a new number, and its records come home."""
    monkeypatch.setattr(Bench, "watchers", [])  # the referee's books do not know of records that rot
    with armed(tmp_path, program(LIGHT, BATH), interpreter=CPYTHON) as bench:
        done(bench)
        greeting = channel(bench).greeting
        last = records(bench)[-1]["n"]
        bench.cut_power()
        path = data_of(bench, "00000001")
        begins = [0, *(at + 1 for at, byte in enumerate(path.read_bytes()[:-1]) if byte == 0x0A)]
        flip(path, *[at + 5 for at in begins[-6:]])
        evidence = path.read_bytes()
        bench.switch_on()
        bench.run_for(500)
        assert (state(bench), status(bench)["fault"], status(bench)["found"]) == ("fault", st.LOST_NOTES, 2)
        assert "LOST" in shown(bench, 2_000)
        again = channel(bench).greeting
        assert greeting and again and again.epoch != greeting.epoch
        hold(bench)
        assert another_sheet(bench) == 2
        done(bench)
        read = {entry.number: entry for entry in journal.read(channel(bench), 1)}
        assert all(entry.record is None for entry in read.values() if last - 6 < entry.number <= last)
        new = [entry.record["k"] for entry in read.values() if entry.record and entry.number > last]
        assert new[0] == "boot" and new[-1] == "end" and {"arm", "intent", "gave", "step"} <= set(new)
        assert path.read_bytes() == evidence
        bench.cut_power()
        bench.switch_on()
        bench.run_for(300)
        assert state(bench) == "idle" and channel(bench).greeting == again, "said once"


def test_rot_in_the_record_of_a_light_that_was_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """Nobody knows what the record told: no more light without a choice, and the bounds hold what it had."""
    monkeypatch.setattr(Bench, "watchers", [])
    with armed(tmp_path, program(LIGHT, LIGHT), interpreter=CPYTHON) as bench:
        whole(bench)
        whole(bench)
        bench.cut_power()
        path = data_of(bench, "00000001")
        kept = path.read_bytes()
        end = kept.rindex(b'"gave"')
        path.write_bytes(kept[: kept.rindex(b"\n", 0, end) + 1])
        # Cut back to the moment at which the second light was given, then its intent rots.
        flip(path, kept.rindex(b'"intent"') + 3)
        bench.switch_on()
        bench.run_for(500)
        hold(bench)
        assert place(bench) == ("broken", 2) and bounds(bench) == (2, 0, 5_000)
        hold(bench)
        assert place(bench) == ("doubt", 2)


@pytest.mark.parametrize("name", ("ledger", "ledger2"))
def test_rot_in_the_ledger(tmp_path: Path, name: str):
    with switched_on(tmp_path, program(LIGHT, sheets=2), interpreter=CPYTHON) as bench:
        hold(bench)
        whole(bench)
        whole(bench)
        tap(bench)
        bench.cut_power()
        flip(data_of(bench, name), 20)
        bench.switch_on()
        bench.run_for(500)
        assert status(bench)["fault"] == st.MENDED_NOTES and "MENDED" in shown(bench, 2_000)
        hold(bench)
        for file in ("ledger", "ledger2"):
            assert json.loads(data_of(bench, file).read_bytes()[:-8])["waiting"] == [1, 2]
        hold(bench)
        assert records(bench, "arm")[-1]["sheet"] == 3


def test_a_ledger_that_is_lost_whole(tmp_path: Path):
    """Numbers go on after the greatest that any record still tells, not after that of the last run alone."""
    with armed(tmp_path, program(LIGHT, BATH), interpreter=CPYTHON) as bench:
        done(bench)
        assert another_sheet(bench) == 2
        done(bench)
        hold(bench)
        tap(bench)
        hold(bench)
        assert records(bench, "arm")[-1]["sheet"] == 2, "the last sheet again"
        done(bench)
        bench.cut_power()
        for name in ("ledger", "ledger2"):
            flip(data_of(bench, name), 20, 30)
        bench.switch_on()
        bench.run_for(500)
        assert status(bench)["fault"] == st.LOST_NOTES
        hold(bench)
        assert another_sheet(bench) == 3 and records(bench, "arm")[-1]["run"] == 4


def test_the_computer_knows_numbers_too(tmp_path: Path):
    with switched_on(tmp_path, program(LIGHT, BATH)) as bench:
        talk = channel(bench)
        assert talk.ask("numbers", sheet=41) == {"next": 42}
        assert talk.ask("numbers", sheet=7) == {"next": 42}, "never back"
        for wrong in (-1, 100_000, 1 << 62):
            with pytest.raises(RefusedError):
                talk.ask("numbers", sheet=wrong)
        cut_and_start(bench)
        assert another_sheet(bench) == 42
        with pytest.raises(RefusedError):
            channel(bench).ask("numbers", sheet=50)


def test_a_press_that_becomes_long_clicks(tmp_path: Path):
    with switched_on(tmp_path, program(LIGHT, BATH)) as bench:
        bench.press()
        bench.run_for(900)
        assert not bench.tone_hz
        clicked = bench.run_until_event(lambda event: event.kind == ev.TONE and bool(event.value), 300)
        assert clicked and bench.lamp is False
        bench.release()
