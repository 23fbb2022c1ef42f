"""Scans from 300 to 2400 ppi: boundaries, density and mottle hold, on strips small enough for every run."""

import math

import numpy as np
import pytest
from support import case
from test_find import check_edges

from footlight.strips.find.place import Place
from footlight.strips.measure import cell_measure, mottle
from footlight.strips.scan import calibration, reduced, uneven
from footlight.strips.scan.scan import make
from footlight.strips.simulated import fields, paper, scanner

SMALL = (-math.inf, -2.0, 0.0, 2.0, 5.0)


@pytest.mark.parametrize("ppi", [300, 600, 1200, 2400])
def test_boundaries_and_density_of_a_small_strip(ppi):
    sheet = scanner.Sheet(SMALL, 9.0, 9.0, bands=("black", "white"))
    made = paper.Paper("hits", middle_stops=-1.9, veil_stops=3.0, dmax_d=1.8)
    one = case(made, stops=SMALL, sheet=sheet, ppi=ppi, skew_deg=2.0, tablet_d=(0.06, 0.5, 1.0, 1.5, 2.0))
    read = one.read()
    check_edges(one, read)
    for cell in read.reading.band("black"):
        truth = made.black_d(np.array(-np.inf if cell.dose_stops is None else cell.dose_stops))
        assert cell.density_d == pytest.approx(float(truth), abs=0.02)


@pytest.mark.parametrize("ppi", [300, 600, 1200, 2400])
def test_mottle_of_a_plain_field(ppi):
    """A field of the standard's size on a noisy scan, against its noise-free self."""
    from scipy.ndimage import map_coordinates

    rng = np.random.default_rng(5)
    side = round(16 * ppi / 25.4)
    at = (np.arange(side) + 0.5) / ppi * 25.4 * fields.PX_PER_MM
    blotches = fields.gaussian(16, 16, 1.2, rng)
    field = 0.15 + 0.02 * map_coordinates(blotches, np.meshgrid(at, at, indexing="ij"), order=1)
    grainy = field + 0.012 * ppi / 300 * rng.standard_normal(field.shape)
    light = 10.0**-grainy + 0.003 * rng.standard_normal(field.shape)
    codes = np.round(np.clip(light, 0, 1) * 65535).astype(np.uint16)
    scan = reduced.to_working(make("field", codes, ppi))
    place = Place(np.array([1.5, 1.5]), np.array([1.0, 0.0]), np.array([0.0, 1.0]), 12.75, 12.75)
    scale = calibration.by_encoding(scan, linear=True)
    found = cell_measure.one(scan, place, scale, uneven.none(), "white", 0, (0, 12.75), (0, 12.75))
    px = ppi / 25.4
    corner, many = round(1.5 * px), round(12.75 * px)
    truth = mottle.of_density(field[corner : corner + many, corner : corner + many], ppi)
    assert found.measured.tiles == 100
    assert found.measured.mottle_d == pytest.approx(truth.mottle_d, rel=0.10)
