"""What is measured, against the truth of the simulated scan."""

from dataclasses import replace

import numpy as np
import pytest
from support import STOPS, case

from footlight.strips.measure import mottle
from footlight.strips.scan.scan import make
from footlight.strips.simulated import paper, scanner

MOTTLED = paper.Paper("hits", middle_stops=-1.9, veil_stops=0.0, dmax_d=1.8, cv=0.6, grain_d=0.01)


def realised(one, band, step):
    """Mottle of the noise-free field of an unskewed scan, by the standard's tiles."""
    row = one.sheet.bands.index(band)
    corner = one.scanned.place.origin_mm + np.array([one.sheet.edges[step], row * one.sheet.band_mm])
    side = 10 * mottle.TILE_MM
    px = one.scanned.scan.px_per_mm
    x, y = (corner + (15.4 - side) / 2) * px
    n = round(side * px)
    part = one.scanned.density_d[round(y) : round(y) + n, round(x) : round(x) + n]
    return mottle.of_density(part, one.scanned.scan.ppi)


@pytest.mark.parametrize("ppi", [300, 600, 1200])
@pytest.mark.parametrize("noise", [0.0002, 0.001])
def test_mottle_within_a_tenth_over_resolution_and_noise(ppi, noise):
    one = case(MOTTLED, stops=STOPS[:5] + (5.0,), ppi=ppi, noise=noise, tablet_d=scanner.TABLET_D)
    for cell in one.read().reading.band("white")[2:5]:
        assert cell.excess_mottle_d == pytest.approx(realised(one, "white", cell.step).mottle_d, rel=0.10)


@pytest.mark.parametrize("skew", [-8, 3, 10])
def test_mottle_within_a_tenth_over_skew(skew):
    """The same field lies under every skew, since it is drawn first."""
    straight, skewed = (case(MOTTLED, ppi=300, skew_deg=angle) for angle in (0, skew))
    for cell in skewed.read().reading.band("white")[2:5]:
        assert cell.excess_mottle_d == pytest.approx(
            realised(straight, "white", cell.step).mottle_d, rel=0.10
        )


@pytest.mark.parametrize("linear", [False, True])
@pytest.mark.parametrize("channels", [1, 3])
def test_density_within_two_hundredths(linear, channels):
    made = paper.Paper("hits", middle_stops=-1.9, dmax_d=1.8, veil_stops=3.0)
    one = case(made, ppi=200, linear=linear, channels=channels, flare=0.004, uneven=0.04)
    for cell in one.read(linear=linear).reading.band("black"):
        truth = made.black_d(np.array(-np.inf if cell.dose_stops is None else cell.dose_stops))
        assert cell.density_d == pytest.approx(float(truth), abs=0.02)


def test_without_patches_it_warns():
    notes = case(ppi=200).read(tablet_d=()).reading.notes
    assert any("no patch of known density" in note for note in notes)


def test_eight_bits_are_said_to_be_coarse():
    assert any("8 bits are coarse" in note for note in case(ppi=200, bits=8).read().reading.notes)


@pytest.mark.parametrize(("end", "gain", "less"), [("black", 1.1, 9000), ("white", 1.1, 0)])
def test_no_advice_from_what_the_scanner_clipped(end, gain, less):
    """Clipped blacks are alike long before they are full, and clipped whites show no veil."""
    one = case(ppi=200)
    codes = np.clip((one.scanned.scan.pixels.astype(float) - less) * gain, 0, 65535).astype(np.uint16)
    hard = replace(one, scanned=replace(one.scanned, scan=make("hard.tif", codes, 200)))
    found = hard.read(tablet_d=()).reading
    assert found.advice.stops is None and found.advice.verdict == "not seen"
    assert f"clipped the {end}s" in found.advice.words[0]
    assert any("cells are clipped" in note for note in found.notes)
    hidden = found.full if end == "black" else found.clean
    assert hidden.low is None and hidden.high is None


def test_dark_lid_is_said():
    notes = case(ppi=200, lid_d=1.2, uneven=0.0).read().reading.notes
    assert any("uneven scanner light is not corrected" in note for note in notes)


def test_drop_marks_are_left_out():
    drops = ((20.0, 38.0, 1.5), (54.0, 38.0, 2.0))
    plain, wet = (case(sheet=scanner.Sheet(STOPS, 15.4, 15.4, drops=d), ppi=300) for d in ((), drops))
    a, b = plain.read().reading, wet.read().reading
    assert sum(cell.drops for cell in b.steps) >= 2 > sum(cell.drops for cell in a.steps)
    for clean, marked in zip(a.band("white"), b.band("white"), strict=True):
        assert marked.density_d == pytest.approx(clean.density_d, abs=0.007)


def test_stain_is_told_from_veil_and_from_a_warm_base():
    """Blue is 0.08 D denser everywhere: the paper's own colour, or stain; only the bare base can tell."""
    made = paper.Paper("hits", middle_stops=-1.9, veil_stops=3.0, stain_d=0.08)
    one = case(made, ppi=200, channels=3)
    stained, warm = (one.read(paper_blue_d=blue_d).reading for blue_d in (0.0, 0.08))
    assert any("denser in blue than the bare base" in cause for cause in stained.advice.causes)
    unknown = one.read().reading
    assert not warm.advice.causes and not unknown.advice.causes
    assert any("a warm base, or stain" in note for note in unknown.notes)
    assert not any("warm base" in note for note in (*warm.notes, *stained.notes))
