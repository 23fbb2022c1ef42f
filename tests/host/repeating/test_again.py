"""`footlight again`: the repeat of a print that the bench made, unchanged and with each change."""

import json
import os
from pathlib import Path

import pytest
from tests.host.notebook.journals import BOOT, write
from tests.host.repeating.prints import EVENING, asked, refused

from footlight import examples, sequence
from footlight.errors import InputError
from footlight.notebook.acts import act
from footlight.notebook.book import notebook
from footlight.notebook.journal import bring
from footlight.notebook.stock import light_setups, papers
from footlight.quantities import parse_sheet
from footlight.sequence.again import Wish, stops_text
from footlight.sequence.again import again as repeat
from footlight.sequence.edited import edited
from footlight.sequence.model import Bath


def again(*words: object) -> dict:
    return json.loads(asked("again", *words, "--json"))


def light_ms(path: str, step: int = 7) -> int:
    return sequence.compile(sequence.load(Path(path))).program["steps"][step - 1]["time_ms"]


def test_unchanged_it_is_the_same_program_byte_for_byte(folder: Path):
    told = again(1)
    assert told["is_same_program"] and told["sha256"] == told["sha256_then"]
    then = sequence.compile(sequence.load(examples.path("reversal-print")))
    assert sequence.compile(sequence.load(Path("again-1.toml"))).data == then.data
    assert (told["since"], told["lights"][0]["time_stops"]) == ([], 0)


def test_the_photographers_own_words_stay_in_the_file(folder: Path):
    again(1)
    written = Path("again-1.toml").read_text().splitlines()
    original = examples.text("reversal-print.toml").splitlines()
    assert set(original) <= set(written)
    assert [line for line in written if line not in original] == [
        "# Again as print 1, run 1, 2026-03-01 18:00: unchanged.",
        'setups = "again-1-setups.toml"',
    ]


@pytest.mark.parametrize(
    ("wish", "expected_ms"),
    [
        # The reference is 6.0 s at 620 mm; the print was made at 800 mm: 6 (800/620)^2 = 9.990 s.
        (["--second", "+1/3 stop"], 9.98959 * 2 ** (1 / 3) * 1000),
        (["--second", "-0.5"], 9.98959 / 2**0.5 * 1000),
        (["--height", "900 mm"], 6000 * (900 / 620) ** 2),
        (["--stop", "f/16"], 9989.59 * 2),
        (["--height", "900 mm", "--second", "1 stop"], 2 * 6000 * (900 / 620) ** 2),
        # The diagonals are √(8² + 10²) and √(11² + 14²) inches: corners as dark as before from
        # 800 mm x 17.804 / 12.806 = 1112.2 mm, which is set to the millimetre.
        (["--size", "11x14", "--higher", "--setups", "high.toml"], 6000 * (1112 / 620) ** 2),
        # The column ends before that.
        (["--size", "11x14", "--higher", "--setups", "low.toml"], 6000 * (950 / 620) ** 2),
        (["--size", "11x14"], 9989.59),
        (["--size", "11x14", "--height", "800 mm"], 9989.59),
        (["--size", "4x5"], 9989.59),
    ],
)
def test_each_change_by_hand(folder: Path, wish: list[str], expected_ms: float):
    for name, highest in (("high.toml", "1300 mm"), ("low.toml", "950 mm")):
        text = examples.text(examples.SETUPS).replace(
            'height = "800 mm"', f'highest = "{highest}"\nheight = "800 mm"'
        )
        Path(name).write_text(text)
    told = again(1, *wish)
    assert light_ms("again-1.toml") == pytest.approx(expected_ms, abs=1)
    assert told["lights"][0]["time_ms"] == light_ms("again-1.toml")
    assert told["lights"][0]["time_ms_then"] == 9990


def test_a_repeat_is_repeated_without_piling_up_its_head(folder: Path):
    again(1, "--second", "+1/3 stop")
    text = Path("again-1.toml").read_text()
    assert 'dose = "+1/3 stop"' in text and text.count("# Again as print") == 1


def test_a_larger_sheet_uses_baths_up_faster(folder: Path):
    told = again(1, "--size", "11x14")
    made = sequence.load(Path("again-1.toml"))
    # 12 sheets of 8x10 are 12 / 1.925 = 6.2 of 11x14.
    assert {tray.name: tray.life_sheets for tray in made.trays}["developer"] == 6
    assert any("1.93 times the area" in note for note in told["notes"])
    (small,) = [warning for warning in told["warnings"] if warning.startswith("Trays")]
    assert "'developer', 'water', 'bleach'" in small and "take 9.5x12 in" in small


def test_the_setups_of_then_hold_whatever_lies_in_the_folder(folder: Path):
    here = folder / "light-setups.toml"
    here.write_text(examples.text(examples.SETUPS).replace('height = "800 mm"', 'height = "700 mm"'))
    told = again(1)
    assert told["is_same_program"]
    assert told["since"] == ["light-setups.toml: light setup 'second': height 700 mm, then 800 mm"]
    of_today = again(1, "today.toml", "--setups", "light-setups.toml")
    assert not of_today["is_same_program"]
    # 6 (700/620)^2
    assert light_ms("today.toml") == 7648 and of_today["written"] == ["today.toml"]
    assert "'second exposure' comes to 7.65 s today, 9.99 s then" in of_today["since"]


def test_setups_that_lie_there_already_are_used(folder: Path):
    (folder / "light-setups.toml").write_text(examples.text(examples.SETUPS))
    assert again(1)["written"] == ["again-1.toml"]


def test_nothing_is_written_over_unasked(folder: Path):
    (folder / "again-1.toml").write_text("mine")
    said = refused("again", 1)
    assert said.startswith("again-1.toml: is there already") and "--replace" in said
    assert (folder / "again-1.toml").read_text() == "mine"
    assert [path.name for path in folder.iterdir()] == ["again-1.toml"]
    again(1, "--replace")
    assert light_ms("again-1.toml") == 9990


def test_what_cannot_be_compiled_is_not_left_behind(folder: Path):
    said = refused("again", 1, "--second", "+5 stops")
    assert "lamp 'enlarger' has cap = 1:30" in said
    assert list(folder.iterdir()) == []


def _first_bath_ms(name: str) -> int:
    (first, *_) = sequence.load(Path(name)).steps
    assert isinstance(first, Bath)
    return first.time_ms


def test_what_lay_there_is_put_back_if_the_new_one_cannot_be_compiled(folder: Path):
    again(1, "--second", "+1/3 stop")
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    refused("again", 1, "--second", "+5 stops", "--replace")
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == before
    again(1, "--second", "+1/2 stop", "--replace")
    assert 'dose = "+1/2 stop"' in Path("again-1.toml").read_text()


SETUPS = """
[lamp.enlrg]
cap = "90 s"
ten_minute_limit = "4:00"
[setup.s]
lamp = "enlrg"
lens = "80 mm"
focal_length = "80 mm"
stop = "f/11"
height = "800 mm"
reference = "6 s at 620 mm f/11"
departure = 1.0
meter = "2 lx at 800 mm f/11"
"""
LIGHTS = """title = "ODD"
name = "odd"
[[step]]
kind = "light"
name = "timed"
setup = "s"
time = "8 s"   # as it is
[[step]]
kind = "light"
name = "lux"
setup = "s"
dose = "15 lx s"
[[step]]
kind = "light"
name = "rest"
setup = "s"
dose = "+1 stop"
already = "reference"
"""


@pytest.mark.parametrize(
    ("wish", "expected_ms"),
    [
        # 8 s; 15 lx s / 2 lx; 9.990 s x (2 - 1): all from 800 mm.
        (Wish(), [8000, 7500, 9990]),
        (Wish(light="all", more_stops=1), [16_000, 15_000, 19_979]),
        # (900/800)^2 = 1.265625, whichever way the light was written.
        (Wish(height_mm=900.0), [10_125, 9492, 12_643]),
        (Wish(light="timed", height_mm=900.0), [10_125, 7500, 9990]),
        (Wish(light="all", height_mm=900.0, more_stops=-1), [5062, 4746, 6322]),
    ],
)
def test_every_way_of_writing_a_light(wish: Wish, expected_ms: list[int]):
    old = sequence.load_kept(LIGHTS, SETUPS, "odd.toml")
    text = edited(LIGHTS, repeat(old, wish).edits)
    new = sequence.compile(sequence.load_kept(text, SETUPS, "odd.toml"))
    assert [step["time_ms"] for step in new.program["steps"]] == pytest.approx(expected_ms, abs=1)
    assert "# as it is" in text


def test_one_of_several_lights_must_be_named():
    old = sequence.load_kept(LIGHTS, SETUPS, "odd.toml")
    with pytest.raises(InputError, match="odd has 3 lights: 1 'timed', 2 'lux', 3 'rest'; name one"):
        repeat(old, Wish(more_stops=1))


def test_a_strip_is_changed_as_a_whole():
    strip = sequence.load(examples.path("second-exposure-strip"))
    with pytest.raises(InputError, match="the lights of a strip add up"):
        repeat(strip, Wish(light="9", more_stops=1))
    (note,) = repeat(strip, Wish(light="all", more_stops=1)).notes
    assert "are as they were written" in note


def test_dry_sheets_use_no_bath():
    flash = sequence.load(examples.path("pre-flash"))
    (note,) = repeat(flash, Wish(sheet=parse_sheet("11x14", "x"))).notes
    # The lamp of 40 mm is far below a fifth of its height: a point, whose corners keep with the diagonal.
    assert "the lamp stays where it is; corners as even as before need 2086 mm" in note


def test_a_height_that_is_wished_is_held_against_the_sheet_of_then():
    flash, large = sequence.load(examples.path("pre-flash")), parse_sheet("11x14", "x")
    for height_mm, even in (
        (2086.0, "corners as even as before"),
        (1900.0, "as even as before need 2086 mm"),
    ):
        (note,) = repeat(flash, Wish(sheet=large, height_mm=height_mm)).notes
        assert "8x10 at 1500 mm" in note and f"11x14 at {height_mm:.0f} mm" in note and note.endswith(even)


def test_a_size_that_is_not_known_is_asked_for():
    old = sequence.load_kept(LIGHTS, SETUPS, "odd.toml")
    with pytest.raises(InputError, match="add from size"):
        repeat(old, Wish(sheet=parse_sheet("8x10", "x")))
    larger = Wish(sheet=parse_sheet("8x10", "x"), old_sheet=parse_sheet("4x5", "x"), higher=True)
    # Twice the diagonal, twice the height, or as far as the column goes.
    for highest, height in (("2000 mm", "1600 mm"), ("1500 mm", "1500 mm")):
        old = sequence.load_kept(LIGHTS, SETUPS + f'highest = "{highest}"\n', "odd.toml")
        assert ("height", height) in {(edit.key, edit.value) for edit in repeat(old, larger).edits}
    with pytest.raises(InputError, match="height: 1600 mm is above the end of the column"):
        repeat(old, Wish(height_mm=1600.0))


def test_as_given_takes_baths_from_the_journal(folder: Path):
    again(2, "planned.toml")
    told = again(2, "given.toml", "--as-given")
    planned, given = (_first_bath_ms(name) for name in ("planned.toml", "given.toml"))
    assert planned == 120_000
    # Twelve seconds late, less what a foot is early within the lift.
    assert given == pytest.approx(132_000, abs=1500)
    # The light was stopped once and resumed: all of it was given.
    assert light_ms("given.toml") == light_ms("planned.toml") == 9990
    assert "times as given then, from the journal" in told["notes"]
    late = "'first developer' was 2:11.2 then, 2:00 planned"
    assert late in again(2, "planned.toml", "--replace")["notes"] and late not in told["notes"]


def other_light(*records: tuple[object, ...]) -> None:
    """Sheet 41, whose second exposure of 9.99 s went as these records say."""
    compiled = sequence.compile(sequence.load(examples.path("reversal-print")))
    short = compiled.sha256[:16]
    armed = (10, "arm", 1, 1, short, "PRINT", 41, 1)
    intent = (20, "intent", 1, 7, 41, 9990, 10_050, short)
    with notebook(Path(os.environ["FOOTLIGHT_NOTEBOOK"]), writing=True) as book:
        epoch = bring.epoch_id(book, "box-41", "e1", EVENING)
        bring.bring(book, epoch, write(BOOT, armed, intent, *records), EVENING)


def test_a_light_that_was_not_given_as_planned_must_be_decided(folder: Path):
    other_light((7000, "gave", 1, 7, 41, 5055, 4995, 4995, "abandoned"))
    said = refused("again", 41)
    # Half of the light is one stop less.
    assert "given 4.99 s of 9.99 s planned (-1 stop)" in said or "given 5.00 s" in said
    assert "--as-given or --as-planned" in said
    assert again(41, "planned.toml", "--as-planned")["is_same_program"]
    again(41, "given.toml", "--as-given")
    assert light_ms("given.toml") == pytest.approx(4995, abs=1)
    assert 'dose = "-1 stop"' in Path("given.toml").read_text()
    again(41, "more.toml", "--as-given", "--second", "+1/3 stop", "--height", "900 mm")
    assert light_ms("more.toml") == pytest.approx(6000 * (900 / 620) ** 2 / 2 * 2 ** (1 / 3), abs=1)


def test_a_light_that_a_power_cut_hid_cannot_be_given_again(folder: Path):
    other_light(BOOT, (0, "cut", 1, 7, 41, 0, 9990))
    assert "cut off by a power cut" in refused("again", 41)
    assert "--as-given cannot repeat that" in refused("again", 41, "--as-given")
    assert again(41, "--as-planned")["is_same_program"]


def test_a_reference_accepted_since_is_told_and_not_taken(folder: Path, monkeypatch: pytest.MonkeyPatch):
    with (
        notebook(Path(os.environ["FOOTLIGHT_NOTEBOOK"]), writing=True) as book,
        act(book, "accepted", EVENING + 86_400) as number,
    ):
        before, after = "6.0 s at 620 mm f/11", "7.1 s at 620 mm f/11"
        light_setups.note(book, number, [light_setups.Change("light-setups.toml", "second", before, after)])
    told = again(1)
    assert told["is_same_program"]
    (since,) = told["since"]
    assert "6.0 s at 620 mm f/11 → 7.1 s at 620 mm f/11" in since and "2026-03-02 18:00" in since


def test_paper_and_baths_since(folder: Path):
    with (
        notebook(Path(os.environ["FOOTLIGHT_NOTEBOOK"]), writing=True) as book,
        act(book, "papers and baths", EVENING) as number,
    ):
        book.executemany(
            "INSERT INTO batches VALUES (?, ?, ?, ?, '8x10', 100)",
            [(1, number, "A", "glossy RC"), (2, number, "B", "glossy RC")],
        )
        book.executemany(
            "INSERT INTO batch_findings (act_id, batch_id, kind, value) VALUES (?, ?, ?, ?)",
            [(number, 1, "speed", 4), (number, 2, "speed", 2), (number, 1, "second", 0),
             (number, 2, "second", 1 / 3)],
        )  # fmt: skip
        book.execute("INSERT INTO papers_of_sheets VALUES (1, ?, 1, 1)", (number,))
        book.executemany(
            "INSERT INTO baths VALUES (NULL, ?, ?, '', '', 'other', 1000, ?, '')",
            [
                (number, "developer", EVENING - 7200),
                (number, "bleach", EVENING - 3600),
                (number, "bleach", EVENING + 1_728_000),
            ],
        )
    with (
        notebook(Path(os.environ["FOOTLIGHT_NOTEBOOK"]), writing=True) as book,
        act(book, "the new paper", EVENING + 60) as number,
    ):
        papers.put(book, number, [2], papers.find(book, "B"))
    since = "\n".join(again(1)["since"])
    assert "developer: the same bath, 2.0 h old then" in since
    assert "bleach: another bath, mixed 2026-03-21 18:00" in since and "1.0 h old then" in since
    assert "batch B (glossy RC, 8x10), another batch of the same paper; then batch A" in since
    # Half the speed is a stop more light in the camera.
    assert "speed, exposure index 2, then 4: +1 stop in the camera" in since
    assert "second exposure: this batch wants +1/3 stop" in since
    assert "paper" not in "\n".join(again(1, "a.toml", "--paper", "A")["since"])
    assert "there is no such batch" in refused("again", 1, "b.toml", "--paper", "C")


def test_a_bath_that_will_not_last_is_told_before_anything_is_sent(folder: Path):
    assert again(1)["baths"] == []
    asked("bath", "mixed", "bleach", "--volume", "1 l", "--formula", "peroxide-bleach")
    asked("bath", "found", "bleach", "--sheets", "0.5")
    said = asked("again", 1, "again.toml", "--replace")
    assert "Mix fresh bleach before this run: 1 of 0.5 sheets of 8x10 by then" in said.partition("Mind\n")[2]


def test_setups_that_were_never_kept_are_asked_for(folder: Path):
    with notebook(Path(os.environ["FOOTLIGHT_NOTEBOOK"]), writing=True) as book:
        book.execute("UPDATE programs SET setups = ''")
    said = refused("again", 1)
    assert "its light setups were not kept when it was sent" in said and "--setups" in said
    Path("light-setups.toml").write_text(examples.text(examples.SETUPS))
    assert again(1, "--setups", "light-setups.toml")["is_same_program"]


def test_a_sequence_from_elsewhere_is_refused(folder: Path):
    with notebook(Path(os.environ["FOOTLIGHT_NOTEBOOK"]), writing=True) as book:
        book.execute("DELETE FROM sends")
        book.execute("DELETE FROM programs")
    assert "was not sent from this notebook" in refused("again", 1)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--light", "third"), "there is no such light; there is 7 'second exposure'"),
        (("--second", "much"), "is not a number of stops"),
        (("--size", "huge"), "is not a sheet size"),
        (("--size", "11x14", "--higher"), "--higher: how high the column goes is not known; write highest"),
        (("--height", "900"), "no unit"),
        (("--run", 9), "run 9 is not known; its runs are: 1"),
    ],
)
def test_what_is_not_understood(folder: Path, words: tuple[object, ...], said: str):
    assert said in refused("again", 1, *words)
    assert list(folder.iterdir()) == []


def test_a_sheet_that_is_not_there(folder: Path):
    assert "sheet 41: not in the notebook" in refused("again", 41)


@pytest.mark.parametrize(
    ("stops", "text"),
    [(0.0, "reference"), (1 / 3, "+1/3 stop"), (-1.5, "-1 1/2 stop"), (-0.3219, "-0.3219 stop")],
)
def test_stops_as_a_file_has_them(stops: float, text: str):
    assert stops_text(stops) == text
