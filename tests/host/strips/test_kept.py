"""Doses really given come from the journal, and what was read is kept with its picture."""

import io
import json

import pytest
from darkroom import TABLET, refused, room, run
from PIL import Image
from tests.host.notebook.journals import EVENING

from footlight.notebook.book import notebook
from footlight.notebook.sheets import readings
from footlight.notebook.stock import baths

PLAN = ("second", "6 s", "--setup", "second-strip", "--step", "1 stop", "--steps", 7, "--blade", "30 mm")
# Totals of that strip by arithmetic: 6 s / 8 up to 6 s × 8, and an anchor of twice the last.
TOTALS_S = (0, 0.75, 1.5, 3, 6, 12, 24, 48, 96)


@pytest.fixture
def dark(tmp_path, monkeypatch):
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", "")
    return room(tmp_path)


@pytest.fixture(scope="module")
def scan(tmp_path_factory):
    path = tmp_path_factory.mktemp("scan") / "strip.tif"
    assert run("read", "sample", path, "--present", "6 s", "--ppi", 200).exception is None
    return path


def lights(path):
    """Numbers of the light steps of a sequence file."""
    import tomllib

    steps = tomllib.loads(path.read_text("utf-8"))["step"]
    return [number for number, step in enumerate(steps, start=1) if step["kind"] == "light"]


def read(scan, *more):
    found = run("read", "strip", scan, "--sheet", 41, "--tablet", TABLET, "--json", *more)
    assert found.exception is None, found.exception
    return json.loads(found.output)


def test_doses_and_present_dose_come_from_the_notebook(dark, scan):
    dark.lit(dark.planned(*PLAN), 41)
    told = read(scan)
    assert told["taken"]["least_s"] == told["taken"]["most_s"] == pytest.approx(TOTALS_S, abs=0.004)
    assert told["present_s"] == pytest.approx(6.0)
    assert told["taken"]["setup"] == "second-strip" and told["taken"]["place"] == "620 mm f/11"
    typed = run("read", "strip", scan, "--present", "6 s", "--centre", "6 s", "--tablet", TABLET, "--json")
    assert told["advice"]["seconds"] == pytest.approx(
        json.loads(typed.output)["advice"]["seconds"], rel=0.003
    )


def test_kept_with_its_picture_in_one_act(dark, scan):
    dark.lit(dark.planned(*PLAN), 41)
    told = read(scan)
    with notebook(dark.book, writing=False) as book:
        kept = readings.find(book)
        picture = readings.picture_of(book, kept.id)
    assert (kept.kind, kept.sheet, kept.run, kept.setup) == ("strip", 41, 1, "second-strip")
    assert kept.dose_s == told["advice"]["seconds"] and json.loads(kept.result) == told
    assert len(kept.scan_sha256) == 64 and kept.scan == "strip.tif"
    assert len(picture) <= readings.MOST_PICTURE_BYTES
    assert Image.open(io.BytesIO(picture)).size[1] > 500
    assert "strip strip.tif read, sheet 41: give" in run("undo").output
    with notebook(dark.book, writing=False) as book, pytest.raises(Exception, match="no reading is"):
        readings.find(book)


def test_the_list_of_what_was_kept_and_a_picture_from_it(dark, scan, tmp_path):
    dark.lit(dark.planned(*PLAN), 41)
    told = read(scan)
    run("read", "eye", "--first-full", 4, "--last-clean", 7, "--sheet", 41)
    lines = run("read", "kept").output.splitlines()
    assert [line.split()[:3] for line in lines[1:]] == [["2", "eye", "41"], ["1", "strip", "41"]]
    said = run("read", "kept", 1, "--picture", tmp_path / "one.png").output
    assert told["advice"]["words"][0] in said and "light of each step as given" in said
    assert (tmp_path / "one.png").read_bytes()[:4] == b"\x89PNG"
    assert json.loads(run("read", "kept", 1, "--json").output)[0]["result"] == told
    assert "name the reading" in refused("read", "kept", "--picture", "x.png")


def test_nothing_is_kept_unasked(dark, scan):
    run("read", "strip", scan, "--present", "6 s", "--centre", "6 s", "--tablet", TABLET)
    assert not dark.book.exists()


def test_a_light_that_was_given_otherwise_counts_as_given(dark, scan):
    path = dark.planned(*PLAN)
    fifth = lights(path)[4]
    dark.lit(path, 41, {fifth: (4000, 4000)})
    told = read(scan)
    # The fifth light reaches band 5 and all beyond: 2 s less of the 6 s planned.
    assert told["taken"]["least_s"] == pytest.approx([0, 0.75, 1.5, 3, 6, 10, 22, 46, 94], abs=0.004)
    assert f"step {fifth}: 4.00 s given, 6.00 s planned" in told["taken"]["said"]


def test_a_light_that_a_power_cut_hid_has_bounds_and_widens_the_interval(dark, scan):
    path = dark.planned(*PLAN)
    fourth = lights(path)[3]
    dark.lit(path, 41)
    sure = read(scan)
    other = room(dark.folder)
    other.book.unlink()
    other.lit(path, 41, {fourth: (2000, 3000)})
    told = read(scan)
    assert told["taken"]["least_s"][4:6] == pytest.approx([5, 11], abs=0.004)
    assert told["taken"]["most_s"][4:6] == pytest.approx([6, 12], abs=0.004)
    width, wider = (one["full"]["high"] - one["full"]["low"] for one in (sure, told))
    assert wider > width
    assert any("cut off, 2.00 to 3.00 s" in text for text in told["taken"]["said"])


def test_light_that_is_not_known_at_all_is_refused(dark, scan):
    path = dark.planned(*PLAN)
    dark.lit(path, 41, {lights(path)[0]: (0, 750)})
    assert "only between 0.00 and 0.75 s" in refused("read", "strip", scan, "--sheet", 41)


def test_how_the_sheet_went_is_shown_beside_the_advice(dark, scan):
    path = dark.planned("crossed", "6 s", "--white", "3 s", "--setup", "second-strip", "--blade", "30 mm")
    text = path.read_text("utf-8")
    bath = '\n[[step]]\nkind = "bath"\nname = "{}"\nshow = "DEV"\ntray = "dev"\ntime = "{}"\n'
    trays = '\n[trays.dev]\nplace = "1"\ntongs = "A"\nbath = "developer"\n'
    head, *steps = text.split("\n[[step]]\n")
    pause = next(place for place, step in enumerate(steps) if "BATHS" in step)
    steps[pause] += bath.format("first developer", "2:00")
    whole = "\n[[step]]\n".join([head + trays, *steps]) + bath.format("second developer", "1:30")
    path.write_text(whole, "utf-8")
    dark.lit(path, 41)
    mixed = baths.Mixed("dev", "", "as always", "developer", 1000.0, EVENING - 9 * 3600)
    with notebook(dark.book, writing=True) as book:
        baths.mix(book, [mixed], EVENING)
    found = run("read", "strip", scan, "--sheet", 41, "--tablet", TABLET)
    assert found.exception is None, found.exception
    # The run is armed 8 s after the evening's date was told.
    assert "dev: 9.0 h in the open tray" in found.output
    assert "before its light: first developer 2:00" in found.output
    assert "after it: second developer 1:30" in found.output
    # The journal above begins a step a minute: the bath, its move, then 1st light … as many minutes later.
    assert "wet for 2:00 until its first light" in found.output
    assert "Kept as reading 1 of sheet 41" in found.output


def test_without_notes_the_manner_says_which_bands(dark, scan):
    path = dark.planned(*PLAN)
    path.write_text(path.read_text("utf-8").replace("reaches band", "band"), "utf-8")
    dark.lit(path, 41)
    assert read(scan)["taken"]["least_s"] == pytest.approx(TOTALS_S, abs=0.004)
    # Taken apart, the first two lights are equal: one band less than the scan shows.
    assert "do not fit 8" in refused("read", "strip", scan, "--sheet", 41, "--manner", "separate")


def test_present_dose_where_no_setups_were_kept(dark, scan, monkeypatch):
    dark.lit(dark.planned(*PLAN), 41)
    with notebook(dark.book, writing=True) as book:
        book.execute("UPDATE programs SET setups = ''")
    monkeypatch.chdir(scan.parent)
    told = read(scan)
    assert told["present_s"] == 6 and told["taken"]["place"] == ""
    assert any("counted from the middle step, 6.0 s" in text for text in told["taken"]["said"])
    told = read(scan, "--setups", dark.setups)
    assert any("as light-setups.toml has it now" in text for text in told["taken"]["said"])
    assert read(scan, "--present", "7 s")["present_s"] == 7


def test_eye(dark):
    dark.lit(dark.planned(*PLAN), 41)
    found = run("read", "eye", "--first-full", 4, "--last-clean", 7, "--sheet", 41)
    assert found.output.startswith("Give ") and "Kept as reading 1" in found.output
    with notebook(dark.book, writing=False) as book:
        kept = readings.find(book)
    told = json.loads(kept.result)
    assert kept.kind == "eye" and kept.dose_s == told["dose_s"]
    assert told["taken"]["place"] == "620 mm f/11" and told["totals_s"] == pytest.approx(TOTALS_S, abs=0.01)


def test_refused(dark, scan):
    assert "no notebook there yet" in refused("read", "strip", scan, "--sheet", 7)
    dark.lit(dark.planned(*PLAN), 41)
    assert "sheet 7: not in the notebook" in refused("read", "strip", scan, "--sheet", 7)
    assert "run 9: no strip of three lights" in refused("read", "strip", scan, "--sheet", 41, "--run", 9)
