"""What a printer may put on the scanner by mistake, through the command: one clear line."""

import numpy as np
import pytest
import tifffile
from darkroom import TABLET, refused, run
from PIL import Image
from support import case

from footlight.strips.errors import ScanError

TYPED = ("--present", "8 s", "--centre", "8 s")


@pytest.fixture(scope="module")
def one():
    return case(ppi=200)


@pytest.fixture
def strip(one, tmp_path):
    path = tmp_path / "strip.tif"
    tifffile.imwrite(path, one.scanned.scan.pixels, resolution=(200, 200), resolutionunit="INCH")
    return path


def read(path, *more):
    return refused("read", "strip", path, *TYPED, *more)


@pytest.mark.parametrize(
    ("tablet", "told"),
    [
        ("0.06, 1.0", "give every patch of it, five at least"),
        ("0.06, 0.2, 0.35", "3 densities calibrate nothing"),
        (TABLET.rsplit(",", 1)[0], "no 11 patches with these densities are seen"),
        ("0.06", "1 density calibrates nothing"),
        ("0.06, 0.06, 0.35, 0.5, 0.7, 0.9, 1.1, 1.3, 1.5, 1.7, 1.9, 2.1", "0.01 D apart at least"),
    ],
)
def test_a_tablet_of_another_number_of_patches(strip, tablet, told):
    said = refused("read", "strip", strip, "--present", "8 s", "--doses",
                   "0, 2 s, 4 s, 8 s, 16 s, 32 s, 64 s, 256 s", "--tablet", tablet)  # fmt: skip
    assert told in said


def test_a_tablet_too_light_for_the_blacks():
    light = case(ppi=200, tablet_d=(0.06, 0.12, 0.2, 0.28, 0.35))
    with pytest.raises(ScanError, match="too far beyond it to be calibrated"):
        light.read(tablet_d=(0.06, 0.12, 0.2, 0.28, 0.35))


def test_wrong_number_of_steps(strip):
    assert "check the number" in read(strip, "--steps", "11")


def test_all_clipped(one, tmp_path):
    path = tmp_path / "hard.tif"
    hard = np.where(one.scanned.scan.pixels > 30000, 65535, 0).astype(np.uint16)
    tifffile.imwrite(path, hard, resolution=(200, 200), resolutionunit="INCH")
    assert "hard.tif" in read(path)


def test_no_resolution(one, tmp_path):
    path = tmp_path / "none.png"
    Image.fromarray((one.scanned.scan.pixels >> 8).astype(np.uint8)).save(path)
    assert "--ppi 600" in read(path)


def test_a_photograph(tmp_path):
    path = tmp_path / "photo.jpg"
    rows, columns = np.mgrid[:900, :1400]
    waves = (128 + 90 * np.sin(columns / 60) * np.cos(rows / 90)).astype(np.uint8)
    picture = Image.fromarray(waves)
    exif = picture.getexif()
    exif.get_ifd(34665)[33437] = 1.8  # FNumber, EXIF 2.3
    picture.save(path, exif=exif, dpi=(300, 300))
    assert "a camera's photograph" in read(path)
    picture.save(path, dpi=(300, 300))
    assert "photo.jpg" in read(path)


def test_a_letter_and_a_folder(tmp_path):
    path = tmp_path / "letter.tif"
    path.write_text("dear printer", "utf-8")
    assert "no TIFF, PNG or JPEG" in read(path)
    assert "no such file" in read(tmp_path)


def test_cut_short(strip):
    strip.write_bytes(strip.read_bytes()[:5000])
    assert "strip.tif" in read(strip)


def test_the_right_number_is_read(strip):
    found = run("read", "strip", strip, "--present", "8 s", "--doses",
                "0, 2 s, 4 s, 8 s, 16 s, 32 s, 64 s, 256 s", "--tablet", TABLET)  # fmt: skip
    assert found.exception is None and found.output.startswith("Give ")
