"""Tones heard -> what they mean: the buzzer's notes held against the firmware's own table of sounds."""

import runpy
from collections.abc import Mapping, Sequence

from footlight.firmware_files import firmware_folders
from footlight.meanings import SOUNDS

Note = tuple[int, int]  # frequency [Hz], 0 = silence; length [ms]

# What each sound of the firmware tells the printer.
MEANINGS = {
    "start": "start",
    "lift": "lift the sheet",
    "time": "time is up",
    "over": "over time",
    "second": "a second of light",
    "stir": "agitate",
    "still": "agitation ends",
    "cue": "by hand: the next thing",
    "counts": "the long press counts",
    "no": "no",
    "off": "light off",
    "ready": "ready",
    "done": "done",
    "turn": "next entry",
    "wash": "the wash is over",
    "fault": "FAULT",
}
# The loop of the firmware looks at its clock in whole milliseconds.
_SLACK_MS = 2


def firmware_sounds() -> dict[str, tuple[Note, ...]]:
    """The notes of every sound, by its name in the firmware."""
    table = runpy.run_path(str(firmware_folders()[0] / "controller" / "sound.py"))
    return {SOUNDS[number]: notes for number, notes in table["SOUNDS"].items()}


class Ear:
    """Hears one change of the tone after another; knows a sound when its last note has ended."""

    def __init__(self, sounds: Mapping[str, Sequence[Note]] | None = None) -> None:
        self._sounds = {name: list(notes) for name, notes in (sounds or firmware_sounds()).items()}
        self._heard: list[Note] = []
        self._tone_hz = 0
        self._since_us = 0

    def hear(self, t_us: int, tone_hz: int) -> str | None:
        """The tone changes now [us], to `tone_hz` [Hz] -> what the sound meant that this ended, or None."""
        self._heard.append((self._tone_hz, (t_us - self._since_us) // 1000))
        self._tone_hz, self._since_us = tone_hz, t_us
        name = self._whole()
        if name:
            self._heard = []
            return MEANINGS.get(name, name)
        self._forget_what_cannot_go_on()
        return None

    def _whole(self) -> str | None:
        return next((name for name, notes in self._sounds.items() if _same(self._heard, notes)), None)

    def _forget_what_cannot_go_on(self) -> None:
        # A sound that another one cut off, or the silence between two.
        while self._heard and not self._may_go_on():
            self._heard.pop(0)

    def _may_go_on(self) -> bool:
        count = len(self._heard)
        return any(_same(self._heard, notes[:count]) for notes in self._sounds.values())


def _same(heard: Sequence[Note], notes: Sequence[Note]) -> bool:
    return len(heard) == len(notes) and all(
        hertz == wanted_hz and abs(length_ms - wanted_ms) <= _SLACK_MS
        for (hertz, length_ms), (wanted_hz, wanted_ms) in zip(heard, notes, strict=True)
    )
