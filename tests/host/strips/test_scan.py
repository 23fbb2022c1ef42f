"""Opening scans: every kind that is allowed, and one clear line for every kind that is not."""

import struct
import zlib

import numpy as np
import pytest
import tifffile
from PIL import Image

from footlight.strips.errors import ScanError
from footlight.strips.scan import scan

GREY16 = (np.arange(4000, dtype=np.uint16).reshape(50, 80) * 16).copy()


def refused(path, words, ppi=None):
    with pytest.raises(ScanError, match=words) as told:
        scan.load(path, ppi)
    assert "\n" not in str(told.value)


@pytest.mark.parametrize("compression", [None, "zlib"])
@pytest.mark.parametrize("shape", ["grey", "rgb"])
@pytest.mark.parametrize("bits", [8, 16])
def test_tiff(tmp_path, compression, shape, bits):
    pixels = GREY16 if bits == 16 else (GREY16 >> 8).astype(np.uint8)
    pixels = pixels if shape == "grey" else np.stack([pixels, pixels, pixels // 2], axis=-1)
    path = tmp_path / "a.tif"
    tifffile.imwrite(path, pixels, resolution=(600, 600), resolutionunit="INCH", compression=compression)
    found = scan.load(path)
    assert np.array_equal(found.pixels, pixels)
    assert (found.ppi, found.bits) == (600, bits)


def test_tiff_of_dots_per_centimetre(tmp_path):
    path = tmp_path / "a.tif"
    tifffile.imwrite(path, GREY16, resolution=(236.22, 236.22), resolutionunit="CENTIMETER")
    assert scan.load(path).ppi == pytest.approx(600, rel=1e-4)


@pytest.mark.parametrize("ending", ["png", "jpg"])
def test_png_and_jpeg(tmp_path, ending):
    path = tmp_path / f"a.{ending}"
    Image.fromarray((GREY16 >> 8).astype(np.uint8)).save(path, dpi=(300, 300))
    found = scan.load(path)
    assert found.bits == 8 and found.ppi == pytest.approx(300, rel=1e-3)
    assert bool(found.notes) == (ending == "jpg")


def test_png_of_16_bits(tmp_path):
    path = tmp_path / "a.png"
    Image.fromarray(GREY16).save(path, dpi=(600, 600))
    found = scan.load(path)
    assert found.bits == 16 and np.array_equal(found.pixels, GREY16)


def test_missing(tmp_path):
    refused(tmp_path / "nothing.tif", "no such file")


def test_not_a_picture(tmp_path):
    path = tmp_path / "a.png"
    path.write_text("this is a letter")
    refused(path, "no TIFF, PNG or JPEG")


@pytest.mark.parametrize("keep", [8, 60, 300, 2000])
def test_cut_short(tmp_path, keep):
    path = tmp_path / "a.tif"
    tifffile.imwrite(path, GREY16, resolution=(600, 600), resolutionunit="INCH", compression="zlib")
    path.write_bytes(path.read_bytes()[:keep])
    refused(path, "damaged or cut short|no resolution")


def test_no_resolution(tmp_path):
    path = tmp_path / "a.png"
    Image.fromarray(GREY16).save(path)
    refused(path, "ppi 600")
    assert scan.load(path, 600).ppi == 600


def test_screen_resolution(tmp_path):
    path = tmp_path / "a.png"
    Image.fromarray(GREY16).save(path, dpi=(72, 72))
    refused(path, "72 ppi; allowed is 150 to 4800")


def test_telephone(tmp_path):
    path = tmp_path / "a.jpg"
    picture = Image.fromarray((GREY16 >> 8).astype(np.uint8))
    exif = picture.getexif()
    exif.get_ifd(34665)[33434] = 0.01  # ExposureTime, EXIF 2.3
    picture.save(path, exif=exif, dpi=(300, 300))
    refused(path, "camera's photograph")


def test_decompression_bomb(tmp_path):
    """A PNG of a few bytes that says 100 000 × 100 000 is refused before it is unpacked."""

    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", 100_000, 100_000, 8, 0, 0, 0, 0)
    body = (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(b"0" * 9999))
        + chunk(b"IEND", b"")
    )
    path = tmp_path / "bomb.png"
    path.write_bytes(body)
    refused(path, "far more pixels than a strip has; at most 200 million are read")


def test_floating_pixels(tmp_path):
    path = tmp_path / "a.tif"
    tifffile.imwrite(path, GREY16.astype(np.float32), resolution=(600, 600), resolutionunit="INCH")
    refused(path, "8 and 16 bits")
