"""From a checked sequence to the controller's program: times by the laws, limits by the lamp, same bytes."""

import json
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some
from tests.host.sequence.writing import FIX, HEAD, LIGHT, PAUSE, SETUPS, TRAY, write

from footlight import sequence
from footlight.errors import InputError
from footlight.sequence.refusals import in_words
from footlight_core import program
from footlight_core.errors import ProgramError


def compiled(folder: Path, text: str, setups: str = SETUPS) -> sequence.Compiled:
    return sequence.compile(sequence.load(write(folder, text, setups)))


def light_ms(folder: Path, light: str, setups: str = SETUPS) -> int:
    return compiled(folder, HEAD + LIGHT.replace('dose = "reference"', light), setups).arithmetic[0].time_ms


def refusal(folder: Path, text: str, setups: str = SETUPS) -> str:
    with pytest.raises(InputError) as caught:
        compiled(folder, text, setups)
    assert str(caught.value).isprintable()
    return str(caught.value)


def test_inverse_square_and_exact_stops(tmp_path: Path):
    """10 s at 400 mm f/8 is 45.00 s at 600 mm f/11 (exact arithmetic: 10 · (600/400)² · 2)."""
    setups = SETUPS.replace("6.0 s at 620 mm f/11", "10 s at 400 mm f/8").replace("800 mm", "600 mm")
    assert light_ms(tmp_path, 'dose = "reference"', setups) == 45_000


def test_literal_stop(tmp_path: Path):
    """If 11 is taken literally the same is 42.54 s (10 · 2.25 · 121/64 = 42.539)."""
    setups = SETUPS.replace("6.0 s at 620 mm f/11", "10 s at 400 mm f/8 literal").replace("800 mm", "600 mm")
    light = 'dose = "reference"\nstop = "f/11 literal"'
    assert light_ms(tmp_path, light, setups) == 42_539


def test_the_line_of_arithmetic(tmp_path: Path):
    """6 · (800/620)² = 9.990 s; 0.735 stop · 0.02 and 0.012 stop of heights are 0.019 stop."""
    (light,) = compiled(tmp_path, HEAD + LIGHT).arithmetic
    assert light.time_ms == 9_990
    assert light.text == "6.0 s at 620 mm f/11 → 10.0 s at 800 mm f/11, ± 0.02 stop"


def test_long_exposures_that_are_not_measured(tmp_path: Path):
    """p = 0.9 is taken: 6 · ((800/620)²)^(1/0.9) = 10.572 s, and reciprocity is told beside it."""
    made = compiled(tmp_path, HEAD + LIGHT, SETUPS.replace("departure = 1.0\n", ""))
    assert made.arithmetic[0].time_ms == 10_572
    assert any("by reciprocity it would be 10.0 s" in note for note in made.arithmetic[0].notes)


AT_620 = SETUPS.replace('height = "800 mm"', 'height = "620 mm"')


@pytest.mark.parametrize(
    ("light", "expected_ms"),
    [
        ('dose = "reference"', 6_000),
        ('dose = "+1 stop"', 12_000),
        ('dose = "-1 1/3 stop"', 2_381),  # 6 · 2^(-4/3)
        ('dose = "6.5 s"', 6_500),
        ('dose = "reference"\nheight = "310 mm"', 1_500),  # a quarter at half the height
        ('dose = "reference"\nstop = "f/16"', 12_000),
        ('dose = "30 lx s"', 2_500),  # 30 lx s at 12 lx
        ('time = "8 s"', 8_000),
        ('time = "8 s"\nheight = "310 mm"', 8_000),
    ],
)
def test_doses(tmp_path: Path, light: str, expected_ms: int):
    assert light_ms(tmp_path, light, AT_620 + 'meter = "12 lx at 620 mm f/11"\n') == expected_ms


def test_a_strip_in_thirds_from_four_seconds(tmp_path: Path):
    """Cumulative 4, 5.04, 6.35, 8, 10.08, 12.70, 16; added 1.04, 1.31, 1.65, 2.08, 2.62, 3.30 (exact
    powers of 2^(1/3))."""
    setups = AT_620.replace("6.0 s at", "8 s at")
    doses = ["-1 stop", "-2/3 stop", "-1/3 stop", "reference", "+1/3 stop", "+2/3 stop", "+1 stop"]
    text = HEAD + LIGHT.replace("reference", doses[0])
    for had, dose in zip(doses, doses[1:], strict=False):
        text += LIGHT.replace("reference", dose) + f'already = "{had}"\n'
    given_s = [light.time_ms / 1000 for light in compiled(tmp_path, text, setups).arithmetic]
    assert given_s == pytest.approx([4, 1.04, 1.31, 1.65, 2.08, 2.62, 3.30], abs=0.006)
    assert sum(given_s) == pytest.approx(16, abs=0.003)


def test_what_is_already_given_leaves_something(tmp_path: Path):
    assert "nothing is left to give" in refusal(tmp_path, HEAD + LIGHT + 'already = "+1 stop"\n')


def test_light_over_the_lamps_cap(tmp_path: Path):
    message = refusal(tmp_path, HEAD + LIGHT.replace("reference", "+3 stops"))
    assert (
        "step 1 'second exposure'" in message and "cap = 1:00" in message and "1:19.977" in message
    )  # 48 · (800/620)² + 0.06


def test_dead_time_counts_for_the_cap(tmp_path: Path):
    assert "cap = 1:00" in refusal(tmp_path, HEAD + LIGHT.replace('dose = "reference"', 'time = "60 s"'))
    whole = HEAD + LIGHT.replace('dose = "reference"', 'time = "59.94 s"')
    assert compiled(tmp_path, whole).program["steps"][0]["time_ms"] == 59_940


def test_light_over_the_ten_minutes(tmp_path: Path):
    message = refusal(tmp_path, HEAD + LIGHT, SETUPS.replace('"3:00"', '"10 s"'))
    assert "ten_minute_limit = 10 s" in message


def test_light_shorter_than_the_relay_can_do(tmp_path: Path):
    message = refusal(tmp_path, HEAD + LIGHT.replace('dose = "reference"', 'time = "10 ms"'))
    assert "least = 0.02 s" in message


def test_no_reference(tmp_path: Path):
    message = refusal(tmp_path, HEAD + LIGHT, SETUPS.replace('reference = "6.0 s at 620 mm f/11"\n', ""))
    assert "needs a reference exposure in light setup 'second'" in message


def test_no_meter_reading(tmp_path: Path):
    assert "needs a meter reading" in refusal(tmp_path, HEAD + LIGHT.replace("reference", "15 lx s"))


def test_four_lamps(tmp_path: Path):
    names = ["one", "two", "three", "four"]
    setups = "".join(
        SETUPS.replace("lamp.lamp", f"lamp.{n}").replace('"lamp"', f'"{n}"').replace("second", n)
        for n in names
    )
    text = HEAD + "".join(LIGHT.replace('setup = "second"', f'setup = "{n}"') for n in names)
    assert "4 lamps; the controller holds 3" in refusal(tmp_path, text, setups)


def test_too_long_for_the_controller(tmp_path: Path):
    cues = ", ".join(f'{{ at = "{n} s", show = "CUE {n}" }}' for n in range(1, 10))
    step = '[[step]]\nkind = "by hand"\nname = "by hand, and a long name"\nshow = "HAND"\n'
    step += f'time = "60 s"\ncues = [{cues}]\n'
    assert f"the controller holds {program.MAX_BYTES}" in refusal(tmp_path, HEAD + step * 40)


def test_bytes_are_the_same_each_time_and_are_the_program(tmp_path: Path):
    text = HEAD + TRAY + FIX + LIGHT + PAUSE
    one, other = compiled(tmp_path, text), compiled(tmp_path, text)
    assert one.data == other.data and one.sha256 == other.sha256
    assert program.parse(one.data) == one.program
    assert one.data == json.dumps(json.loads(one.data), sort_keys=True, separators=(",", ":")).encode("ascii")


def test_the_program_by_hand(tmp_path: Path):
    made = json.loads(compiled(tmp_path, HEAD + TRAY + FIX + 'lift = "10 s"\n' + LIGHT).data)
    assert made["lamps"] == [{"cap_ms": 60_000, "name": "LAMP", "window_ms": 180_000}]
    assert made["steps"] == [
        {"kind": "bath", "name": "fix", "show": "FIX", "place": "5", "tongs": "C",
         "time_ms": 60_000, "lift_ms": 10_000},
        {"kind": "light", "name": "second exposure", "show": "LIGHT", "time_ms": 9_990, "dead_ms": 60,
         "lens": "80MM", "stop": "F/11", "height_mm": 800},
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("stop", "shown"),
    [
        ("f/11", "F/11"),
        ("f/5.6", "F/5.6"),
        ("f/11 +1/3", "11+1/3"),
        ("f/5.6 +1/3", "F/6.3"),
        ("f/11.3 literal", "F/11.3"),
    ],
)
def test_the_stop_on_the_display(tmp_path: Path, stop: str, shown: str):
    light = compiled(tmp_path, HEAD + LIGHT.replace('dose = "reference"', f'time = "8 s"\nstop = "{stop}"'))
    assert light.program["steps"][0]["stop"] == shown


def warned(folder: Path, text: str, word: str, setups: str = SETUPS) -> bool:
    return any(word in sentence for sentence in compiled(folder, text, setups).warnings)


def test_warnings(tmp_path: Path):
    assert warned(tmp_path, HEAD + TRAY + FIX + LIGHT, "lights a wet sheet at once")
    assert not warned(tmp_path, HEAD + TRAY + FIX + LIGHT + 'settle = "10 s"\n', "wet sheet")
    assert not warned(tmp_path, HEAD + LIGHT, "wet sheet")
    assert warned(
        tmp_path, 'sheet = "11x14"\n' + HEAD + TRAY + 'size = "8x10"\n' + FIX, "Tray 'fixer' takes 8x10"
    )
    assert not warned(tmp_path, 'sheet = "254 x 203 mm"\n' + HEAD + TRAY + 'size = "8x10"\n' + FIX, "takes")
    assert warned(tmp_path, "sheets = 3\n" + HEAD + TRAY + 'life = "2 sheets"\n' + FIX, "lasts 2 sheets")
    assert warned(
        tmp_path, HEAD + LIGHT.replace('dose = "reference"', 'time = "100 ms"'), "short for a contacts relay"
    )


def test_a_hot_lamp_is_warned_of(tmp_path: Path):
    """10.05 s a sheet: the 18th in ten minutes passes 180 s (17 · 10.05 = 170.85; 18 · 10.05 = 180.9)."""
    assert not warned(tmp_path, "sheets = 17\n" + HEAD + LIGHT, "COOL")
    assert warned(tmp_path, "sheets = 18\n" + HEAD + LIGHT, "of sheet 18 brings the lamps to 3:00.9")


def test_timeline_of_a_batch(tmp_path: Path):
    text = (
        "sheets = 2\n"
        + HEAD
        + TRAY
        + FIX
        + 'lift = "10 s"\n'
        + LIGHT
        + 'settle = "5 s"\n'
        + FIX
        + "aside = true\n"
    )
    text += '[[step]]\nkind = "until pressed"\nname = "judge"\nleast = "10 s"\nmost = "30 s"\n'
    made = compiled(tmp_path, text)
    spans = sequence.timeline(made)
    assert [(s.sheet, s.step_number, s.kind, s.start_ms, s.end_ms) for s in spans] == [
        (1, 1, "bath", 0, 60_000),
        (1, 2, "light", 65_000, 75_050),
        (1, 3, "bath", 75_050, 135_050),
        (1, 4, "judge", 75_050, 95_050),
        (2, 1, "bath", 95_050, 155_050),
        (2, 2, "light", 160_050, 170_100),
        (2, 3, "bath", 170_100, 230_100),
        (2, 4, "judge", 170_100, 190_100),
    ]
    assert (spans[0].lift_ms, spans[1].settle_ms, spans[2].aside) == (10_000, 5_000, True)
    assert sequence.timeline(made, judged="most")[3].end_ms == 105_050


def test_a_refusal_of_the_controller_is_said_in_words_of_the_file(tmp_path: Path):
    loaded = sequence.load(write(tmp_path, HEAD + TRAY + FIX))
    error = in_words(ProgramError(1, "time_ms", 5, "1000 to 14400000"), loaded)
    assert "line 6, step 1 'fix': time: 5 ms; the controller allows 1000 to 14400000" in str(error)


times = some.sampled_from(["1 s", "5 s", "30 s", "2:00", "4 h"])


@settings(max_examples=100, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    time=times,
    lift=times,
    every=times,
    length=times,
    least=times,
    auto=some.booleans(),
    white=some.booleans(),
    sheets=some.integers(1, 3),
    dose=some.integers(-10, 10),
)
def test_what_is_loaded_is_what_the_controller_takes(
    tmp_path, time, lift, every, length, least, auto, white, sheets, dose
):
    """What the reader lets through, the controller's own check lets through; the rest is said in one line."""
    text = f"sheets = {sheets}\n" + HEAD + TRAY
    text += LIGHT.replace("reference", f"{dose} stop") + FIX.replace("1:00", time) + f'lift = "{lift}"\n'
    text += (
        f'agitation = {{ every = "{every}", for = "{length}" }}\nafter = "{"auto" if auto else "pedal"}"\n'
    )
    text += f"white_light = {'true' if white else 'false'}\n"
    text += f'[[step]]\nkind = "until pressed"\nname = "judge"\nleast = "{least}"\nmost = "{time}"\n'
    try:
        made = compiled(tmp_path, text)
    except InputError as error:
        assert "test.toml" in str(error) and "controller allows" not in str(error)
    else:
        assert program.check(json.loads(made.data)) == made.program
