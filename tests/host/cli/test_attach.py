"""Pictures: small and upright, without what the file tells of place and camera; what is none is refused."""

import hashlib
import io
from pathlib import Path

import pytest
from tests.host.cli.day import Day, day

from footlight.notebook.sheets import small_picture

Image = pytest.importorskip("PIL.Image")
__all__ = ["day"]
# EXIF 2.3: tag 0x0112 is the orientation, 6 means 'turn a quarter clockwise'; 0x010E a description.
ORIENTATION, DESCRIPTION = 0x0112, 0x010E


def back(day: Day, tmp_path: Path, *more: str):
    """The picture as it is written back."""
    out = tmp_path / "out.jpg"
    out.unlink(missing_ok=True)
    day.asked(f"attach 41 --out {out} {' '.join(more)}")
    return Image.open(io.BytesIO(out.read_bytes()))


def test_upright_small_and_without_metadata(day: Day, tmp_path: Path):
    exif = Image.Exif()
    exif[ORIENTATION], exif[DESCRIPTION] = 6, "at home"
    picture = Image.new("RGB", (4000, 2000), "white")
    picture.paste("black", (0, 0, 2000, 2000))
    picture.save(tmp_path / "in.jpg", exif=exif)
    day.asked(f"attach 41 {tmp_path / 'in.jpg'}")
    kept = back(day, tmp_path)
    # The black left half of a picture that is to be turned clockwise comes to the top.
    assert (kept.size, kept.format) == ((800, 1600), "JPEG")
    assert kept.getpixel((400, 100))[0] < 10 and kept.getpixel((400, 1500))[0] > 245
    assert not kept.getexif() and b"at home" not in day.path.read_bytes()
    (listed,) = day.json("sheet 41")["pictures"]
    assert listed["name"] == "in.jpg"
    assert listed["sha256"] == hashlib.sha256((tmp_path / "out.jpg").read_bytes()).hexdigest()


def test_even_noise_is_small(day: Day, tmp_path: Path):
    Image.effect_noise((2400, 2400), 200).save(tmp_path / "noise.png")
    kept = day.json(f"attach 41 {tmp_path / 'noise.png'}")["kept"]
    assert kept[0]["bytes"] <= 400 * 1024
    assert max(back(day, tmp_path).size) <= 1600


@pytest.mark.parametrize("name", ["grey.tif", "clear.png", "colour.png"])
def test_grey_in_16_bits_transparency_and_colour(day: Day, tmp_path: Path, name: str):
    pictures = {
        # Half of 65535 is half of 255.
        "grey.tif": (Image.new("I;16", (60, 40), 32_768), (128, 128, 128)),
        "clear.png": (Image.new("RGBA", (60, 40), (0, 0, 0, 0)), (255, 255, 255)),
        "colour.png": (Image.new("P", (60, 40), 0), (0, 0, 0)),
    }
    picture, colour = pictures[name]
    picture.save(tmp_path / name)
    day.asked(f"attach 41 {tmp_path / name}")
    assert back(day, tmp_path).convert("RGB").getpixel((30, 20)) == pytest.approx(colour, abs=2)


def test_the_first_the_last_and_undo(day: Day, tmp_path: Path):
    for name, size in (("one.png", (10, 20)), ("two.png", (30, 20))):
        Image.new("L", size).save(tmp_path / name)
    day.asked(f"attach 41 {tmp_path / 'one.png'} {tmp_path / 'two.png'}")
    assert back(day, tmp_path).size == (30, 20)
    assert back(day, tmp_path, "--which 1").size == (10, 20)
    assert "is there already" in day.refused(f"attach 41 --out {tmp_path / 'out.jpg'}")
    assert "there are 2" in day.refused(f"attach 41 --out {tmp_path / 'new.jpg'} --which 3")
    day.asked("undo")
    assert "no picture" in day.refused(f"attach 41 --out {tmp_path / 'new.jpg'}")


def test_the_same_picture_is_kept_once(day: Day, tmp_path: Path):
    Image.new("L", (9, 9)).save(tmp_path / "one.png")
    Image.new("L", (9, 8)).save(tmp_path / "two.png")
    day.asked(f"attach 41 {tmp_path / 'one.png'}")
    assert day.asked(f"attach 41 {tmp_path / 'one.png'}") == "sheet 41: one.png is kept already\n"
    assert (
        day.json(f"attach 41 {tmp_path / 'one.png'} {tmp_path / 'two.png'}")["kept"][0]["name"] == "two.png"
    )
    day.asked(f"write 41 --picture {tmp_path / 'one.png'}")
    assert [one["name"] for one in day.json("sheet 41")["pictures"]] == ["one.png", "two.png"]
    assert len(day.json("history")) == 2


def torn(path: Path) -> None:
    Image.effect_noise((300, 300), 50).save(path)
    path.write_bytes(path.read_bytes()[:2000])


def huge(path: Path) -> None:
    # All of one colour, 20 kB; opened it would be 225 million pixels.
    Image.new("1", (15_000, 15_000)).save(path)


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda path: path.write_text("Dear diary, " * 50), "no picture; PNG, JPEG and TIFF are taken"),
        (lambda path: path.write_bytes(b""), "no picture"),
        (lambda path: Image.new("L", (9, 9)).save(path, "GIF"), "no picture"),
        (torn, "cannot be read as a picture"),
        (huge, "pixels, allowed are 160 million"),
        (lambda path: path.mkdir(), "cannot be read as a picture"),
        (lambda path: None, "there is no such file"),
    ],
)
def test_what_is_no_picture(day: Day, tmp_path: Path, make, said: str):
    make(tmp_path / "in.png")
    # One good one beside it: all or none.
    Image.new("L", (9, 9)).save(tmp_path / "good.png")
    assert said in day.refused(f"attach 41 {tmp_path / 'good.png'} {tmp_path / 'in.png'}")
    assert day.json("sheet 41")["pictures"] == []


def test_the_limit_is_held_where_pillow_only_warns(day: Day, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(small_picture, "MOST_PIXELS", 100)
    Image.new("L", (11, 10)).save(tmp_path / "in.png")
    assert "pixels, allowed are" in day.refused(f"attach 41 {tmp_path / 'in.png'}")


def test_a_file_or_out(day: Day, tmp_path: Path):
    assert "name a picture to keep" in day.refused("attach 41")
    assert "sheet 42: not in the notebook" in day.refused(f"attach 42 --out {tmp_path / 'x.jpg'}")
