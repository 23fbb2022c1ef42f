"""A strip written as a sequence file compiles, and its program gives each band what the plan says."""

from dataclasses import replace
from pathlib import Path

import pytest
from tests.host.sequence.test_runs_in_the_core import Foot

from footlight import sequence
from footlight.errors import InputError
from footlight.light.setup import LightSetup
from footlight.light.strip import ready
from footlight.light.strip.blade import Blade
from footlight.light.strip.build import Layout
from footlight.light.strip.fog import fog_test
from footlight.light.strip.plan import Manner, StripPlan
from footlight.quantities import parse_sheet, parse_stop
from footlight.sequence.model import ByHand, Light, Pause
from footlight.sequence.strip_file import crossed_to_toml, fog_to_toml, strip_to_toml
from footlight_core import effects as fx
from footlight_core import states as st

SETUP = LightSetup("second", "enlarger", "80 mm", 80.0, parse_stop("f/11", "stop"), 600, dead_ms=50)
LAYOUT = Layout(254, Blade(30))
THIRDS = ready.second_exposure(SETUP, 6, LAYOUT, step_stops=1 / 3)
SETUPS_FILE = """
[lamp.enlarger]
show = "ENL"
cap = "40 s"
ten_minute_limit = "9:00"

[setup.second]
lamp = "enlarger"
lens = "80 mm"
focal_length = "80 mm"
stop = "f/8"
height = "700 mm"
dead_time = "50 ms"
"""


def compiled(folder: Path, text: str) -> sequence.Compiled:
    (folder / "light-setups.toml").write_text(SETUPS_FILE, encoding="utf-8")
    (folder / "strip.toml").write_text(text, encoding="utf-8")
    return sequence.compile(sequence.load(folder / "strip.toml"))


def lit_ms(made: sequence.Compiled, reaches: str) -> int:
    """Sum of the lights of a program whose note says that they reach this band."""
    steps = [step for step in made.sequence.steps if isinstance(step, Light)]
    return sum(step.time_ms for step in steps if reaches in _bands(step.note))


def _bands(note: str) -> list[str]:
    first, _, last = note.split("band")[1].lstrip("s").strip().partition(" to ")
    return [str(band) for band in range(int(first), int(last or first) + 1)]


@pytest.mark.parametrize("manner", ["covered", "uncovered", "separate", "cut"])
def test_every_band_gets_its_light(tmp_path, manner: Manner):
    plan = ready.second_exposure(SETUP, 6, LAYOUT, step_stops=1 / 3, manner=manner)
    made = compiled(tmp_path, strip_to_toml(plan, "second", cap_ms=40_000))
    for band in plan.bands:
        assert lit_ms(made, f"{band.number}") == pytest.approx(band.total_s * 1000, abs=len(plan.lights))


def test_a_light_past_the_lamps_cap_is_given_in_parts(tmp_path):
    made = compiled(tmp_path, strip_to_toml(THIRDS, "second", cap_ms=40_000))
    anchor = [step for step in made.sequence.steps if isinstance(step, Light) and "part" in step.name]
    assert [step.time_ms for step in anchor] == [24_000, 24_000]  # 60 s less the 12 s it has had
    with pytest.raises(InputError, match="cap = 40 s"):
        compiled(tmp_path, strip_to_toml(THIRDS, "second", cap_ms=60_000))


def test_the_file_holds_the_height_and_stop_of_the_plan(tmp_path):
    made = compiled(tmp_path, strip_to_toml(THIRDS, "second", cap_ms=40_000))
    lights = [step for step in made.program["steps"] if step["kind"] == "light"]
    assert {light["height_mm"] for light in lights} == {600}
    assert {light["stop"] for light in lights} == {"F/11"}
    assert {light["dead_ms"] for light in lights} == {50}


def test_the_lamp_is_off_and_a_cue_shown_for_each_move(tmp_path):
    made = compiled(tmp_path, strip_to_toml(THIRDS, "second", cap_ms=40_000))
    steps = made.sequence.steps
    moves = [step for step in steps if isinstance(step, ByHand)]
    assert isinstance(steps[0], Pause)
    assert len(moves) == len(THIRDS.lights) - 1
    assert [move.cues[0].show for move in moves] == [f"TO {n}" for n in range(2, 9)]
    assert all(move.auto for move in moves)
    assert not any(step.auto for step in steps if isinstance(step, Light))
    assert moves[0].note == f"blade at {THIRDS.lights[1].mark_mm:.1f} mm from the zero end"


def test_a_dead_time_strip_moves_only_when_the_band_changes(tmp_path):
    plan = ready.dead_time(SETUP, Layout(254))
    made = compiled(tmp_path, strip_to_toml(plan, "second", cap_ms=40_000))
    kinds = [step.kind for step in made.sequence.steps]
    assert kinds[:12] == ["pause", *["light"] * 10, "by hand"]


def test_a_crossed_strip_holds_both_and_a_pause_for_the_process(tmp_path):
    both = ready.crossed(SETUP, 3.0, THIRDS, parse_sheet("8x10", "s"))
    made = compiled(tmp_path, crossed_to_toml(both, "second", "second", cap_ms=40_000))
    shows = [step.show for step in made.sequence.steps]
    assert "BATHS" in shows
    lights = [step.time_ms for step in made.sequence.steps[: shows.index("BATHS")] if isinstance(step, Light)]
    assert lights == [1191, 1809, 9000]  # 3·2^(-4/3) = 1.1906; 3 - 1.1906; 12 - 3


@pytest.mark.parametrize("exposure", [2.0, None])
def test_fog_tests_wait_twenty_minutes(tmp_path, exposure):
    stage = "before first developer" if exposure else "after the bleach"
    test = fog_test(stage, SETUP, 240, pre_exposure_s=exposure)
    made = compiled(tmp_path, fog_to_toml(test, "second"))
    waits = [step for step in made.sequence.steps if isinstance(step, ByHand)]
    assert sum(step.time_ms for step in waits) == 20 * 60_000
    assert sum(isinstance(step, Light) for step in made.sequence.steps) == (2 if exposure else 0)


def test_more_steps_than_the_controller_holds_are_refused():
    many = ready.second_exposure(SETUP, 6, Layout(500, Blade(5)), step_stops=1 / 4, count=25)
    with pytest.raises(InputError, match="take fewer bands"):
        strip_to_toml(many, "second")


def test_names_with_quotes_stay_text(tmp_path):
    plan: StripPlan = replace(THIRDS, purpose='say "now"\\ here')
    assert (
        compiled(tmp_path, strip_to_toml(plan, "second", cap_ms=40_000)).sequence.about == 'say "now"\\ here'
    )


class LitFoot(Foot):
    """Notes the lamp-on times that the sequencer asks for [ms]."""

    lit_ms: tuple[int, ...] = ()

    def take(self) -> None:
        effects = self.seq.effects
        kinds, values = effects.kinds[: effects.count], effects.values[: effects.count]
        self.lit_ms += tuple(value for kind, value in zip(kinds, values, strict=True) if kind == fx.LAMP_ON)
        super().take()


def test_the_controllers_own_sequencer_runs_a_strip_to_its_end(tmp_path):
    """A foot that answers each wait: the lamp is on for each light and its dead time, in order."""
    foot = LitFoot(compiled(tmp_path, strip_to_toml(THIRDS, "second", cap_ms=40_000)).program)
    foot.tap(st.LONG, 1000)
    if foot.seq.state == st.PICK:  # which sheet
        foot.tap(st.LONG, 3000)
    for _ in range(200):
        if foot.seq.state == st.DONE:
            break
        foot.answer()
    assert foot.seq.state == st.DONE
    lights = [light.duration_ms for light in THIRDS.lights[:-1]] + [24_000, 24_000]
    assert list(foot.lit_ms) == [light + 50 for light in lights]
