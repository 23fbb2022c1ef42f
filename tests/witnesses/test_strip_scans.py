"""The simulator of scans holds what it says: truths by the page's rule, fields of their spectrum."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import tifffile
from tests.witnesses.strip_scans import curves, fields, papers, spoilt
from tests.witnesses.strip_scans.fields import Spectrum
from tests.witnesses.strip_scans.picture import picture
from tests.witnesses.strip_scans.scan import write
from tests.witnesses.strip_scans.scenario import scenario

STEPS = tuple(np.arange(-4, 5) / 2)
ANCHOR = 3.32


def a_paper(family: str, number: int) -> papers.Paper:
    """One of a family."""
    return papers.paper(STEPS, ANCHOR, np.random.default_rng([number, 3]), family)


@pytest.mark.parametrize("family", curves.FAMILIES)
@pytest.mark.parametrize("number", range(4))
def test_black_is_full_where_the_rule_says(family: str, number: int):
    # docs/reading-strips.md, What is computed: within 0.05 D of the fullest black of the strip.
    paper = a_paper(family, number)
    fullest = paper.black.density_d(np.array([*STEPS, ANCHOR])).max()
    below, at = paper.black.density_d(np.array([paper.full_stops - 0.01, paper.full_stops]))
    assert below < fullest - 0.05 <= at + 1e-6


@pytest.mark.parametrize("number", range(6))
def test_white_is_clean_to_the_first_of_two_limits(number: int):
    # The same: 0.02 D above its own zero step, or mottle beyond it of 0.010 D.
    paper = a_paper(curves.FAMILIES[number], number)
    whites = (paper.white.white, paper.white2.white)
    before = [(white.veil_d(paper.clean_stops - 0.02), white.tile_share) for white in whites]
    after = [(white.veil_d(paper.clean_stops + 0.02), white.tile_share) for white in whites]
    assert all(veil < 0.02 and veil * share < 0.010 for veil, share in before)
    assert any(veil > 0.02 or veil * share > 0.010 for veil, share in after)


@pytest.mark.parametrize("kind", papers.SPECTRA)
def test_drawn_fields_have_the_mottle_that_is_expected_of_them(kind: str):
    spectrum, rng = Spectrum(kind, 2.0), np.random.default_rng(5)
    drawn = [
        fields.own_mottle(
            fields.lognormal(fields.gaussian(spectrum, (160, 160), 1 / 12, rng), 0.4), 1 / 12, (10, 10)
        )
        for _ in range(40)
    ]
    expected = fields.expected_mottle(spectrum, 0.4, (10, 10))
    assert np.sqrt(np.mean(np.square(drawn))) == pytest.approx(expected, rel=0.09)


def test_mottle_of_a_sine_and_of_white_noise_as_printed_elsewhere():
    # A sine of 3 cycles a field, amplitude 0.01 D: 0.0061, exact arithmetic; white noise: its deviation over
    # the root of the points of a tile.
    places = (np.arange(1270) + 0.5) / 1270
    sine = 0.01 * np.sin(2 * np.pi * 3 * places)[None, :] * np.ones((1270, 1))
    assert fields.own_mottle(sine, 0.01, (10, 10)) == pytest.approx(0.0061, rel=0.08)
    noise = np.random.default_rng(1).normal(0, 0.01, (600, 600))
    assert fields.own_mottle(noise, 0.02117, (9, 9)) == pytest.approx(0.01 / 60, rel=0.12)


def test_a_tilt_is_no_mottle():
    ramp = np.linspace(0, 0.5, 160)[None, :] * np.ones((160, 1))
    assert fields.own_mottle(ramp, 1 / 12, (10, 10)) < 1e-3


def test_a_seed_is_one_scan_to_the_last_bit(tmp_path: Path):
    (tmp_path / "again").mkdir()
    first, again = write(scenario(7), tmp_path), write(scenario(7), tmp_path / "again")
    assert first.path.read_bytes() == again.path.read_bytes()
    assert first.truth == again.truth


def test_the_densities_of_the_truth_are_in_the_picture():
    """Read where the truth says the cells lie, before the scanner: no finder has a part in it."""
    drawn_by = scenario(16)
    drawn_by = replace(
        drawn_by,
        blemishes=replace(drawn_by.blemishes, dust=0, hairs=0, drops=0, ring_share=0.0),
        sheet=replace(drawn_by.sheet, in_pieces=False),
    )
    drawn = picture(drawn_by, np.random.default_rng(1))
    zero, far, _, below = drawn.corners_mm
    sheet, per_mm = drawn_by.sheet, drawn_by.scanner.ppi / 25.4
    across = [0, *sheet.step_edges_mm, sheet.length_mm]
    down = [0, *sheet.band_edges_mm, sheet.width_mm]
    for cell in drawn.cells:
        row = sheet.bands.index(cell.band)
        u = (across[cell.step] + across[cell.step + 1]) / 2 / sheet.length_mm
        v = (down[row] + down[row + 1]) / 2 / sheet.width_mm
        x, y = ((zero + u * (far - zero) + v * (below - zero)) * per_mm).astype(int)
        reach = round(2.5 * per_mm)
        part = drawn.light[y - reach : y + reach, x - reach : x + reach]
        # Blotches lie unevenly: a part of a cell is not the whole.
        assert -np.log10(part.mean()) == pytest.approx(
            cell.density_d, abs=0.01 + 0.3 * (cell.mottle_d > 0.004)
        )


def test_the_file_says_its_resolution(tmp_path: Path):
    drawn_by = next(
        drawn
        for drawn in map(scenario, range(50))
        if drawn.scanner.file == "tif16" and drawn.scanner.ppi == 300
    )
    with tifffile.TiffFile(write(drawn_by, tmp_path).path) as file:
        assert file.pages.first.tags["XResolution"].value == (300, 1)


@pytest.mark.parametrize("seed", [0, 5, 8])
def test_a_spoilt_scan_says_what_is_wrong_with_it(seed: int, tmp_path: Path):
    kind, words = spoilt.write(seed, tmp_path)
    assert kind == spoilt.KINDS[seed]
    assert Path(words[2]).stat().st_size > 100_000
