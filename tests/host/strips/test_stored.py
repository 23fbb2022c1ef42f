"""The ways in which scanners and editors store the same scan: each gives the same pixels, or one line."""

import struct
import zlib

import numpy as np
import pytest
import tifffile
from PIL import Image

from footlight.strips.errors import ScanError
from footlight.strips.scan import scan

INCH = {"resolution": (600, 600), "resolutionunit": "INCH"}
GREY16 = (np.arange(4000, dtype=np.uint16).reshape(50, 80) * 16 + 7).copy()
COLOUR16 = np.stack([GREY16, GREY16 // 2 + 3, GREY16 // 3 + 5], axis=-1)
COLOUR8 = (COLOUR16 >> 8).astype(np.uint8)


def refused(path, words, ppi=None):
    with pytest.raises(ScanError, match=words) as told:
        scan.load(path, ppi)
    assert "\n" not in str(told.value)


def png_of_16_bits(path, pixels, colour_type):
    """After the PNG specification (ISO/IEC 15948): big-endian samples, a filter byte of 0 before each row."""

    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    height, width = pixels.shape[:2]
    rows = b"".join(b"\0" + row.astype(">u2").tobytes() for row in pixels)
    head = struct.pack(">IIBBBBB", width, height, 16, colour_type, 0, 0, 0)
    parts = (b"IHDR", head), (b"pHYs", struct.pack(">IIB", 23622, 23622, 1)), (b"IDAT", zlib.compress(rows))
    path.write_bytes(b"\x89PNG\r\n\x1a\n" + b"".join(chunk(*part) for part in parts) + chunk(b"IEND", b""))


@pytest.mark.parametrize(
    "how",
    [
        {"byteorder": ">"},
        {"byteorder": ">", "compression": "zlib"},
        {"compression": "zlib", "predictor": True},
        {"tile": (16, 16), "compression": "zlib"},
        {"bigtiff": True},
    ],
)
@pytest.mark.parametrize("pixels", [GREY16, COLOUR16, COLOUR8])
def test_tiff_in_every_order_of_bytes(tmp_path, how, pixels):
    path = tmp_path / "a.tif"
    tifffile.imwrite(path, pixels, **INCH, **how)
    assert np.array_equal(scan.load(path).pixels, pixels)


def test_tiff_with_white_as_zero(tmp_path):
    path = tmp_path / "a.tif"
    tifffile.imwrite(path, 65535 - GREY16, photometric="miniswhite", **INCH)
    assert np.array_equal(scan.load(path).pixels, GREY16)


@pytest.mark.parametrize("compression", ["tiff_lzw", "packbits"])
def test_tiff_compressed_by_an_editor(tmp_path, compression):
    path = tmp_path / "a.tif"
    Image.fromarray(COLOUR8).save(path, compression=compression, dpi=(600, 600))
    assert np.array_equal(scan.load(path).pixels, COLOUR8)


def test_jpeg_within_tiff_is_said(tmp_path):
    path = tmp_path / "a.tif"
    Image.fromarray(COLOUR8).save(path, compression="jpeg", dpi=(600, 600))
    assert any("JPEG throws fine detail away" in note for note in scan.load(path).notes)


def test_too_large_for_memory(tmp_path, monkeypatch):
    from footlight.strips.scan import stored_tiff

    def no_room(path):
        raise MemoryError

    path = tmp_path / "a.tif"
    tifffile.imwrite(path, GREY16, **INCH)
    monkeypatch.setattr(stored_tiff, "read", no_room)
    refused(path, "larger than the memory left")


def test_tiff_whose_compression_needs_more_says_what(tmp_path, monkeypatch):
    """16 bits in colour under LZW: Pillow would quietly give 8."""
    from footlight.strips.scan import stored_tiff

    path = tmp_path / "a.tif"
    tifffile.imwrite(path, COLOUR16, compression="zlib", **INCH)
    monkeypatch.setattr(stored_tiff, "_WITHOUT_CODECS", set())
    monkeypatch.setattr(stored_tiff, "find_spec", lambda name: None)
    refused(path, "pip install imagecodecs.*without compression")


def test_tiff_with_a_palette_is_read_by_its_colours(tmp_path):
    path = tmp_path / "a.tif"
    picture = Image.fromarray(COLOUR8).quantize(64)
    picture.save(path, dpi=(600, 600))
    found = scan.load(path)
    assert np.array_equal(found.pixels, np.asarray(picture.convert("RGB")))
    assert any("palette" in note for note in found.notes)


@pytest.mark.parametrize("ending", ["tif", "jpg"])
def test_inks_are_refused(tmp_path, ending):
    path = tmp_path / f"a.{ending}"
    Image.fromarray(COLOUR8).convert("CMYK").save(path, dpi=(600, 600))
    refused(path, "CMYK; scan in grey or RGB")


def test_one_bit_is_refused(tmp_path):
    for ending in ("tif", "png"):
        path = tmp_path / f"a.{ending}"
        Image.fromarray(COLOUR8[:, :, 0]).convert("1").save(path, dpi=(600, 600))
        refused(path, "8 or 16 bits|8 and 16 bits")


def test_another_resolution_across_than_down(tmp_path):
    path = tmp_path / "a.tif"
    tifffile.imwrite(path, GREY16, resolution=(300, 600), resolutionunit="INCH")
    refused(path, "300 ppi across and 600 down")
    assert scan.load(path, 600).ppi == 600


@pytest.mark.parametrize("ending", ["tif", "png"])
@pytest.mark.parametrize(
    ("orientation", "stored"),
    [
        (2, lambda a: a[:, ::-1]),
        (3, lambda a: a[::-1, ::-1]),
        (4, lambda a: a[::-1]),
        (5, lambda a: a.swapaxes(0, 1)),
        (6, lambda a: np.rot90(a, 1)),
        (7, lambda a: a[::-1, ::-1].swapaxes(0, 1)),
        (8, lambda a: np.rot90(a, -1)),
    ],
)
def test_it_lies_as_a_viewer_shows_it(tmp_path, orientation, stored, ending):
    """Places are given in mm from the left top as seen. Tag 274: TIFF 6.0 and EXIF."""
    path = tmp_path / f"a.{ending}"
    pixels = np.ascontiguousarray(stored(COLOUR8))
    if ending == "tif":
        tifffile.imwrite(path, pixels, extratags=[(274, "H", 1, orientation, True)], **INCH)
    else:
        exif = Image.Exif()
        exif[274] = orientation
        Image.fromarray(pixels).save(path, dpi=(600, 600), exif=exif)
    assert np.array_equal(scan.load(path).pixels, COLOUR8)


@pytest.mark.parametrize(("colour_type", "channels"), [(2, 3), (6, 4)])
def test_png_of_16_bits_in_colour_keeps_them(tmp_path, colour_type, channels):
    path = tmp_path / "a.png"
    opaque = np.full((*GREY16.shape, 1), 65535, np.uint16)
    png_of_16_bits(path, np.concatenate([COLOUR16, opaque], axis=-1)[:, :, :channels], colour_type)
    found = scan.load(path)
    assert (found.bits, found.notes) == (16, ())
    assert np.array_equal(found.pixels, COLOUR16)


@pytest.mark.parametrize("ending", ["tif", "png"])
def test_what_is_transparent_is_white(tmp_path, ending):
    """An editor that turned the scan leaves clear corners, whose hidden colour may be anything."""
    path = tmp_path / f"a.{ending}"
    clear = np.full((*GREY16.shape, 1), 255, np.uint8)
    clear[:10] = 0
    pixels = np.concatenate([COLOUR8, clear], axis=-1)
    if ending == "tif":
        tifffile.imwrite(path, pixels, photometric="rgb", extrasamples=["unassalpha"], **INCH)
    else:
        Image.fromarray(pixels).save(path, dpi=(600, 600))
    found = scan.load(path)
    assert (found.pixels[:10] == 255).all() and np.array_equal(found.pixels[10:], COLOUR8[10:])
    assert any("transparent" in note for note in found.notes)


def test_empty_and_other_files(tmp_path):
    path = tmp_path / "a.tif"
    path.write_bytes(b"")
    refused(path, "is empty")
    Image.fromarray(COLOUR8).save(tmp_path / "a.bmp")
    refused(tmp_path / "a.bmp", "no TIFF, PNG or JPEG")


@pytest.mark.parametrize("samples", [5, 400])
def test_many_channels_are_refused_before_they_are_unpacked(tmp_path, samples):
    path = tmp_path / "a.tif"
    tifffile.imwrite(path, np.zeros((16, 16, samples), np.uint8), photometric="rgb", planarconfig="contig",
                     compression="zlib", **INCH)  # fmt: skip
    refused(path, f"{samples} channels")


def test_a_camera_that_writes_tiff(tmp_path):
    path = tmp_path / "a.tif"
    exposure = (33434, "2I", 1, (1, 100), True)  # ExposureTime, TIFF/EP (ISO 12234-2)
    tifffile.imwrite(path, COLOUR8, extratags=[exposure], **INCH)
    refused(path, "camera's photograph")
