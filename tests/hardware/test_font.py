"""letters.txt is the one source of the display's letters: the firmware's copy is what the generator makes."""

import runpy

import pytest
from hardware.generate_font import SOURCE, TARGET, read_fonts, render

TEXT = SOURCE.read_text(encoding="utf-8")
FONT = runpy.run_path(str(TARGET))


def test_the_committed_font_is_what_the_generator_makes():
    assert TARGET.read_text(encoding="utf-8") == render(read_fonts(TEXT))


def test_what_the_firmware_splits_it_into_is_what_was_drawn():
    assert {"small": FONT["SMALL"], "big": FONT["BIG"]} == read_fonts(TEXT)
    # Typed here a second time on purpose: a T is a bar, a stem, a bar; the figure 1 fills eight rows.
    assert FONT["SMALL"]["T"] == bytes([0b0000001, 0b1111111, 0b0000001])
    assert FONT["BIG"]["1"][2:4] == b"\xff\xff"


@pytest.mark.parametrize(
    ("old", "new"), [("T     ###", "T     ####"), ("T     ###", "T     #x#"), ("T     ###", "TT    ###")]
)
def test_a_bad_drawing_is_refused(old: str, new: str):
    assert old in TEXT
    with pytest.raises(ValueError, match=r"letters.txt: TT?: "):
        read_fonts(TEXT.replace(old, new, 1))


def test_a_column_that_would_part_two_letters_is_refused():
    with pytest.raises(ValueError, match="every other dot"):
        read_fonts("\n== small\n\nX     #\n      .\n      #\n      .\n      #\n      .\n      #\n")
