"""Both pre-flash strips, read: threshold and decision against the truth of the simulated ones."""

import json
import math
from pathlib import Path

import numpy as np
import pytest
from darkroom import TABLET, refused, room, run

from footlight.light import preflash as rule
from footlight.notebook.book import notebook
from footlight.notebook.sheets import readings
from footlight.notebook.stock import papers
from footlight.sequence.setups import load_setups
from footlight.strips import preflash, reading
from footlight.strips.errors import ScanError
from footlight.strips.simulated import flashed, scanner

QUICK = (0.0, *(2.0 * 2 ** ((k - 3) / 2) for k in range(7)))
BANDS = (0.0, 1.0, 1.41, 2.0, 2.83, 4.0)


def options(made):
    return reading.Options(tablet_d=made.scanned.tablet_d)


@pytest.mark.parametrize("seed", range(6))
def test_threshold_within_its_interval(seed):
    rng = np.random.default_rng(seed)
    true_s = 2.0 * 2 ** rng.uniform(-0.8, 0.8)
    device = scanner.Scanner(ppi=200, skew_deg=float(rng.uniform(-5, 5)))
    made = flashed.quick(QUICK, true_s, device, rng)
    read = preflash.threshold(made.scanned.scan, QUICK, options(made)).reading
    assert read.low_s is not None and read.high_s is not None and read.threshold_s is not None
    assert read.low_s < true_s < read.high_s
    assert abs(math.log2(read.threshold_s / true_s)) < 0.15
    assert read.seconds == read.low_s


@pytest.mark.parametrize(("true_s", "words"), [(40.0, "make one about"), (0.2, "seen already")])
def test_threshold_beyond_the_strip(true_s, words):
    made = flashed.quick(QUICK, true_s, scanner.Scanner(ppi=200), np.random.default_rng(1))
    try:
        read = preflash.threshold(made.scanned.scan, QUICK, options(made)).reading
    except ScanError as error:
        assert "reach far enough" in str(error)
    else:
        assert read.seconds is None and words in read.words[0]


def test_decision_is_that_of_the_densities_where_nothing_is_near():
    """The flash chosen is what `light flash decide` takes from the true densities."""
    made = flashed.deciding(BANDS, 2.0, scanner.Scanner(ppi=200, skew_deg=2.0), np.random.default_rng(2))
    read = preflash.bands(made.scanned.scan, BANDS, ("black", "darker", "lighter"), options(made)).reading
    true = [
        [full - loss * (flash / 2.0) ** 1.3 for full, loss in ((2.05, 0.06), (2.00, 0.16), (1.94, 0.30))]
        for flash in BANDS
    ]
    for band, levels in zip(read.flashes, true, strict=True):
        assert band.density_d == pytest.approx(levels, abs=0.02)
    wanted = rule.decide([rule.Trial(flash, *levels) for flash, levels in zip(BANDS, true, strict=True)])
    assert read.seconds == wanted.chosen.flash_s == 2.0


def test_a_flash_near_the_limit_is_not_surely_good():
    """At 2.5 s the black has lost 0.08 D, the most that may be lost: with the doubt against it, less."""
    flashes = (0.0, 1.0, 2.48)
    made = flashed.deciding(flashes, 2.0, scanner.Scanner(ppi=200), np.random.default_rng(3))
    read = preflash.bands(made.scanned.scan, flashes, ("black", "darker", "lighter"), options(made)).reading
    assert read.seconds == 1.0


@pytest.mark.parametrize("turn", ["upside down", "mirrored rows"])
def test_however_it_lies(turn):
    made = flashed.deciding(BANDS, 2.0, scanner.Scanner(ppi=200), np.random.default_rng(2))
    pixels = made.scanned.scan.pixels
    pixels = (pixels[::-1, ::-1] if turn == "upside down" else pixels[::-1]).copy()
    from footlight.strips.scan.scan import make

    read = preflash.bands(
        make("t", pixels, 200), BANDS, ("black", "darker", "lighter"), options(made)
    ).reading
    assert read.seconds == 2.0


@pytest.fixture
def dark(tmp_path, monkeypatch):
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", "")
    monkeypatch.chdir(tmp_path)
    made = room(tmp_path)
    for sheet, seed, name in ((12, 1, "old"), (13, 5, "new")):
        made.lit(made.planned("flash", "2 s", "--setup", "pre-flash"), sheet) if sheet == 12 else None
        words = ("read", "sample", f"{name}.tif", "--kind", "flash", "--ppi", 200, "--seed", seed)
        assert run(*words).exception is None
    return made


def read(name, sheet):
    found = run("read", "flash", f"{name}.tif", "--sheet", sheet, "--tablet", TABLET)
    assert found.exception is None, found.exception
    return found.output


def test_kept_and_accepted_into_the_pre_flash_setup(dark):
    said = read("old", 12)
    assert "Paper begins to see at" in said and "Kept as reading 1 of sheet 12" in said
    with notebook(dark.book, writing=False) as book:
        kept = readings.find(book)
        assert len(readings.picture_of(book, kept.id)) > 5000
    assert (kept.kind, kept.setup) == ("pre-flash", "pre-flash")
    assert json.loads(kept.result)["taken"]["least_s"] == pytest.approx(QUICK, abs=0.002)
    assert run("accept", "--yes").exception is None
    reference = load_setups(dark.setups).setups["pre-flash"].setup.reference
    assert reference is not None
    assert reference.seconds == pytest.approx(kept.dose_s, rel=0.005) and reference.height_mm == 1500
    run("undo")
    assert 'reference = "2.4 s at 1500 mm"' in dark.setups.read_text("utf-8")


def test_a_new_batch_is_matched_to_the_old(dark):
    read("old", 12)
    read("new", 12)
    with notebook(dark.book, writing=True) as book:
        papers.add(book, "B", "invented paper", "8x10", 100, None, 1_772_388_000)
    told = json.loads(run("read", "match", 1, 2, "--batch", "B", "--json").output)
    with notebook(dark.book, writing=False) as book:
        first, second = (json.loads(readings.find(book, number).result) for number in (1, 2))
        (finding,) = papers.findings(book, papers.find(book, "B"))
        assert book.execute("SELECT reading_id FROM batch_findings").fetchall()[-1][0] == 2
    wanted = math.log2(second["threshold_s"] / first["threshold_s"])
    assert told["difference_stops"] == pytest.approx(wanted, abs=1e-3)
    assert told["low_stops"] < wanted < told["high_stops"]
    assert (finding.kind, finding.setup, finding.value) == (
        "pre-flash", "pre-flash", pytest.approx(wanted, abs=1e-3)
    )  # fmt: skip
    assert finding.text.startswith("reading 2 against 1: ")
    assert "paper B: pre-flash" in run("undo").output
    assert "Not written" in run("read", "match", 1, 2).output


def test_what_cannot_be_matched(dark):
    read("old", 12)
    typed = ("read", "flash", "new.tif", "--centre", "2 s", "--tablet", TABLET, "--keep")
    assert run(*typed).exception is None
    assert "lit at" in refused("read", "match", 1, 2)
    assert run("read", "eye", "--first-full", 4, "--last-clean", 7, "--present", "6 s", "--centre", "6 s",
               "--keep").exception is None  # fmt: skip
    assert "name two strips of one kind" in refused("read", "match", 1, 3)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["flash", "old.tif"], "either --doses"),
        (["flash", "old.tif", "--doses", "1 s, 2 s"], "write 0 and two or more rising flashes"),
        (["flash-bands", "old.tif", "--centre", "2 s", "--bands", "darker, black"], "must name black"),
        (["flash-bands", "old.tif", "--centre", "2 s"], "no strip of flash bands"),
        (["flash", "old.tif", "--centre", "2 s", "--report", "x.doc"], "must end in .png"),
    ],
)
def test_bad_words(dark, words, told):
    assert told in refused("read", *words)


@pytest.mark.parametrize(
    "words",
    [
        ("flash", "old.tif", "--centre", "2 s"),
        ("strip", "old.tif", "--centre", "8 s", "--present", "8 s"),
        ("print", "old.tif"),
    ],
)
def test_a_page_is_never_written_over_a_scan(dark, words):
    other = Path("scan.png")
    other.write_bytes(b"a scan of another day")
    said = refused("read", *words, "--report", other)
    assert "is there already" in said and "--replace" in said
    assert other.read_bytes() == b"a scan of another day"


def test_a_page_may_be_written_anew(dark):
    page = Path("page.png")
    typed = ("read", "flash", "old.tif", "--centre", "2 s", "--tablet", TABLET, "--report", page)
    assert run(*typed).exception is None
    assert "is there already" in refused(*typed)
    assert run(*typed, "--replace").exception is None
    assert not list(Path().glob(".*"))
