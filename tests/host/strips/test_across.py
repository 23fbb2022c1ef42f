"""A strip laid across a picture: what is plain is measured, what is not is left out, and both are said."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.ndimage import gaussian_filter
from support import case

from footlight.strips.errors import ScanError
from footlight.strips.find import grid
from footlight.strips.scan.scan import make

BAND_MM = 15.4


def pictured(share, depth_d, bands=(2, 3)):
    """(a plain strip, and the same with tones of `depth_d` over the upper `share` of its bands)."""
    plain = case(ppi=300, linear=True)
    pixels, px_per_mm = plain.scanned.scan.pixels, plain.scanned.scan.px_per_mm
    rows, columns = (np.arange(n) / px_per_mm for n in pixels.shape)
    x, y = columns - plain.scanned.place.origin_mm[0], rows - plain.scanned.place.origin_mm[1]
    upper = np.isin(y // BAND_MM, bands) & (y / BAND_MM % 1 < share)
    on = upper[:, None] & ((x > 0) & (x < plain.scanned.place.length_mm))[None, :]
    tones = np.clip(depth_d * (1 + 0.7 * _texture(pixels.shape, px_per_mm)), 0, None)
    codes = np.round(pixels * 10.0 ** -(tones * on)).astype(np.uint16)
    return plain, replace(plain, scanned=replace(plain.scanned, scan=make("across.tif", codes, 300)))


def _texture(shape, px_per_mm):
    rng = np.random.default_rng(3)
    fields = [gaussian_filter(rng.standard_normal(shape), size * px_per_mm) for size in (0.6, 1.8, 4.8)]
    return sum(field / field.std() for field in fields)


@pytest.mark.parametrize("share", [0.3, 0.5, 0.7])
def test_only_what_is_plain_is_measured(share):
    plain, across = pictured(share, 0.4)
    known, found = plain.read(linear=True).reading, across.read(linear=True).reading
    assert any("'white' lies across a picture: measured where it is plain" in note for note in found.notes)
    for band in ("white", "white2"):
        for a, b in zip(known.band(band)[:6], found.band(band)[:6], strict=True):
            assert b.plain_share < 0.95
            assert b.density_d == pytest.approx(a.density_d, abs=0.004), (band, a.step)
            assert b.mottle_d == pytest.approx(a.mottle_d, abs=0.004), (band, a.step)
    assert found.clean.stops == pytest.approx(known.clean.stops, abs=0.35)


def test_a_band_with_nothing_plain_is_left_out(tmp_path):
    _, across = pictured(1.0, 0.4)
    read = across.read(linear=True)
    assert read.reading.bands == ("black", "grey")
    assert sum("too little, it is left out" in note for note in read.reading.notes) == 2
    assert read.reading.advice.verdict == "white not seen" and read.reading.advice.stops is None
    from footlight.strips.show import report

    report.png(read, tmp_path / "page.png", dpi=40)
    report.html_page(read, tmp_path / "page.html")


def test_a_black_band_on_a_picture_is_refused():
    _, across = pictured(1.0, 0.4, bands=(0,))
    by_hand = grid.Guide(8, edges_mm=tuple(across.sheet.edges[1:-1]))
    with pytest.raises(ScanError, match="black band is no plain paper|the black band goes up and down"):
        across.read(by_hand, linear=True)


def test_soft_tones_are_told_by_the_zero_step():
    _, across = pictured(1.0, 0.02)
    notes = across.read(linear=True).reading.notes
    assert any("before any second exposure" in note for note in notes)


def test_a_plain_strip_is_left_alone():
    for seed in range(3):
        notes = case(ppi=200, seed=seed).read().reading.notes
        assert not any("picture" in note for note in notes)
