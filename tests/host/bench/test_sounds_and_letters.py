"""What the live bench makes of tones and dots: held against the firmware's own tables, played and drawn by
the firmware's own files."""

import runpy

import pytest

from footlight.bench.glyphs import read_text
from footlight.bench.panel import Panel
from footlight.bench.sounds import MEANINGS, Ear, firmware_sounds
from footlight.firmware_files import firmware_folders
from footlight.meanings import SOUNDS

FIRMWARE = firmware_folders()[0]
WORDS = [
    "PRINT",
    "DEV 1",
    "NO",
    "PENCIL",
    "1 A",
    "80MM",
    "F/11",
    "LIFT 10",
    "OFF 3.2",
    "DONE",
    "FOOT",
    "FOCUS",
    "STEP10",
    "NR 40",
    "10.0S",
]
TIMES = ["2:00", "10:30", "+0:12", "9.9", "0.5"]


def play(ear: Ear, name: str, t_us: int) -> tuple[int, list[str]]:
    """Plays a sound as the buzzer does -> (when it has ended [us], what was understood)."""
    understood = []
    for hertz, length_ms in firmware_sounds()[name]:
        understood.append(ear.hear(t_us, hertz))
        t_us += length_ms * 1000
    understood.append(ear.hear(t_us, 0))
    return t_us, [meaning for meaning in understood if meaning]


def test_every_sound_of_the_firmware_has_a_meaning_of_its_own():
    assert set(MEANINGS) == set(SOUNDS) == set(firmware_sounds())
    assert len(set(MEANINGS.values())) == len(MEANINGS)


@pytest.mark.parametrize("name", SOUNDS)
def test_a_sound_is_understood_once_and_as_itself(name: str):
    ear = Ear()
    for _ in range(2):
        assert play(ear, name, 7_000_123)[1] == [MEANINGS[name]]


def test_sounds_after_one_another_with_silence_between():
    ear, t_us, understood = Ear(), 0, []
    for name in SOUNDS:
        t_us, heard = play(ear, name, t_us + 450_000)
        understood += heard
    assert understood == [MEANINGS[name] for name in SOUNDS]


def test_a_sound_that_is_cut_off_does_not_spoil_the_next():
    ear = Ear()
    ear.hear(0, 1500)
    ear.hear(80_000, 2000)
    assert play(ear, "lift", 100_000)[1] == [MEANINGS["lift"]]


def drawn(text: str, big: bool) -> list[list[bool]]:
    """The text as the firmware's own display file sends it to the chips."""
    latched = bytearray()
    display_file = runpy.run_path(str(FIRMWARE / "controller" / "display.py"))

    class Spi:
        def write(self, data: bytes) -> None:
            latched.extend(data)

    display_file["Display"](Spi(), lambda level: None).show(text, big, 2)
    panel = Panel()
    panel.latch(bytes(latched))
    return panel.rows()


@pytest.mark.parametrize(
    ("text", "big"), [(text, False) for text in WORDS] + [(text, True) for text in TIMES]
)
def test_the_display_is_read_as_it_is_drawn(text: str, big: bool, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.syspath_prepend(str(FIRMWARE))
    assert read_text(drawn(text, big)) == text


def test_a_dark_display_says_nothing():
    assert read_text(Panel().rows()) == ""
