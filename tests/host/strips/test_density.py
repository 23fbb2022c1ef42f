"""Density and sRGB against published values and an independent library."""

import colour
import numpy as np
import pytest

from footlight.strips.errors import ScanError
from footlight.strips.scan import calibration
from footlight.strips.scan.scan import make


@pytest.mark.parametrize(
    ("reflectance", "density_d"), [(0.18, 0.7447), (0.5012, 0.30), (0.00794, 2.1), (1.0, 0.0)]
)
def test_density_is_minus_log10_of_reflectance(reflectance, density_d):
    """D = −log10 R, ISO 5 series; values by arithmetic."""
    assert calibration.density(reflectance) == pytest.approx(density_d, abs=2e-4)


def test_srgb_breakpoint_and_middle():
    """IEC 61966-2-1: breakpoint 0.04045 → 0.0031308; 0.5 → 0.21404."""
    assert calibration.srgb_to_linear(np.array(0.5)) == pytest.approx(0.21404, abs=1e-5)
    assert calibration.srgb_to_linear(np.array(0.04045)) == pytest.approx(0.0031308, abs=1e-7)


def test_srgb_agrees_with_colour_science():
    codes = np.linspace(0, 1, 1001)
    assert calibration.srgb_to_linear(codes) == pytest.approx(colour.cctf_decoding(codes, "sRGB"), abs=1e-9)


@pytest.mark.parametrize(("code", "density_d"), [(245, 0.0395), (128, 0.666), (22, 2.096), (21, 2.125)])
def test_eight_bit_codes(code, density_d):
    """By arithmetic from IEC 61966-2-1: 8 bits are coarse in the blacks."""
    scan = make("grey", np.full((20, 20), code, np.uint8), 300)
    table = calibration.by_encoding(scan).tables[0]
    assert calibration.density(table[code]) == pytest.approx(density_d, abs=6e-4)


def test_two_patches_take_gain_and_flare_out():
    """A scanner with 0.5 % flare and 90 % gain on linear codes; two patches undo both exactly."""
    known = np.array([0.06, 1.90])
    scan = make("grey", np.zeros((20, 20), np.uint16), 300)
    base = calibration.by_encoding(scan, linear=True)
    seen = 0.9 * (10**-known + 0.005)
    scale = calibration.by_patches(base, seen[:, None], known, "test")
    code = round(0.9 * (10**-1.0 + 0.005) * 65535)
    assert calibration.density(scale.tables[0][code]) == pytest.approx(1.0, abs=0.002)


def test_patches_out_of_order_are_refused():
    scan = make("grey", np.zeros((20, 20), np.uint16), 300)
    base = calibration.by_encoding(scan)
    with pytest.raises(ScanError, match="do not darken"):
        calibration.by_patches(base, np.array([[0.2], [0.5], [0.1]]), np.array([0.1, 0.5, 1.0]), "t")
