"""What reaches the display's chip, and that every letter is as wide as the core believes."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "firmware"))

from controller import display, sound  # noqa: E402
from footlight.meanings import SOUNDS  # noqa: E402
from footlight_core import effects, program  # noqa: E402


class Spi:
    """Keeps every latch."""

    def __init__(self):
        self.words: list[bytes] = []

    def write(self, words):
        self.words.append(bytes(words))


def sent(text: str, brightness: int = 1, big: bool = False) -> list[bytes]:
    spi = Spi()
    display.Display(spi, lambda level: None).show(text, big, brightness)
    return spi.words


def register(words: list[bytes], number: int) -> list[bytes]:
    return [word for word in words if word[0] == number]


def test_every_letter_is_as_wide_as_the_core_believes():
    for char in program.SHOWN_SET:
        assert display.columns(char, False) == program.shown_columns(char), char


def test_every_frame_rewrites_all_control_registers():
    # MAX7219 data sheet, register map: 0x9 decode, 0xA intensity, 0xB scan limit, 0xC shutdown, 0xF test.
    words = sent("41")
    assert register(words, 0xF) == [bytes([0xF, 0] * 4)]
    assert register(words, 0xC) == [bytes([0xC, 1] * 4)]
    assert register(words, 0x9) == [bytes([0x9, 0] * 4)]
    assert register(words, 0xB) == [bytes([0xB, 7] * 4)]
    assert len(words) == 13


def test_dark_by_wish_is_shut_down():
    assert register(sent("41", brightness=0), 0xC) == [bytes([0xC, 0] * 4)]


def test_intensity_is_capped_whatever_is_asked():
    assert register(sent("41", brightness=99), 0xA) == [bytes([0xA, display.INTENSITY_CAP] * 4)]


def test_a_text_too_wide_is_cut_off_at_the_last_column():
    full = sent("WWWWWWWW")
    assert len(full) == 13 and all(len(word) == 8 for word in full)


def test_the_left_module_is_sent_last():
    # A narrow text of one dot column in the middle: columns 15 or 16, so modules 1 or 2 of 0 to 3.
    rows = [word for word in sent("!") if word[0] == 1]
    lit = [module for module in range(4) if rows[0][7 - 2 * module]]
    assert lit in ([1], [2])


class Pwm:
    def __init__(self):
        self.duty = 0

    def freq(self, hertz):
        assert 100 <= hertz <= 5000

    def duty_u16(self, duty):
        self.duty = duty


def test_every_meaning_has_its_own_sound_and_ends_in_silence():
    assert len(set(sound.SOUNDS.values())) == len(SOUNDS)
    for number in range(len(SOUNDS)):
        pwm = Pwm()
        player = sound.Sound(pwm)
        player.play(number, 0)
        while player.due_ms() != sound.NEVER_MS:
            player.tick(player.due_ms())
        assert pwm.duty == 0


def test_a_tick_cuts_no_sound_off():
    player = sound.Sound(Pwm())
    player.play(effects.START, 0)
    due_ms = player.due_ms()
    player.play(effects.SECOND, 5)
    assert player.due_ms() == due_ms


def test_of_two_sounds_in_one_moment_both_are_heard():
    player = sound.Sound(Pwm())
    player.play(effects.START, 0)
    player.play(effects.STIR, 0)
    length_ms = sum(ms for number in (effects.START, effects.STIR) for _, ms in sound.SOUNDS[number])
    end_ms = 0
    while player.due_ms() != sound.NEVER_MS:
        end_ms = player.due_ms()
        player.tick(end_ms)
    assert end_ms == length_ms
