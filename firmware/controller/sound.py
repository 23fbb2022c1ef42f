"""The buzzer: one family of tones for each meaning, different enough to be told apart over running water.

A sound is a row of (frequency [Hz], length [ms]) notes, 0 Hz being silence. Playing never waits: `tick`
moves on to the next note.
"""

from footlight_core import const
from footlight_core import effects as fx

NEVER_MS = const(-1)
_NOTHING = const(-1)

# A small piezo disc is loudest at 2 to 4 kHz (common practice, no source); low notes carry as rattle.
SOUNDS = {
    fx.START: ((1500, 80), (2000, 80), (2700, 140)),
    fx.LIFT: ((2400, 120), (0, 80), (2400, 120)),
    fx.TIME: ((2000, 350),),
    fx.OVER: ((900, 120),),
    fx.SECOND: ((3200, 12),),
    fx.STIR: ((1200, 40), (0, 60), (1200, 40)),
    fx.STILL: ((1200, 25),),
    fx.CUE: ((1800, 60), (1500, 60), (1800, 60)),
    fx.COUNTS: ((3600, 20),),
    fx.NO: ((400, 250),),
    fx.OFF: ((2700, 80), (2000, 80), (1500, 140)),
    fx.READY: ((2000, 60), (0, 40), (2600, 60)),
    fx.DONE: ((2000, 90), (2500, 90), (3000, 90), (3500, 220)),
    fx.TURN: ((2600, 15),),
    fx.WASH: ((1500, 200), (0, 100), (2000, 200), (0, 100), (1500, 200)),
    fx.FAULT: ((600, 150), (3000, 150), (600, 150), (3000, 150), (600, 150), (3000, 150)),
}
_ON = const(32768)  # half of a full duty of 65535: a square wave


class Sound:
    """Plays one sound at a time. A new one takes over, but what comes in the same moment waits its turn,
    and a tick never cuts anything off."""

    def __init__(self, pwm):
        self._pwm = pwm
        self._notes = ()
        self._index = 0
        self._until_ms = NEVER_MS
        self._since_ms = NEVER_MS
        self._after = _NOTHING

    def play(self, sound, now_ms):
        """Begin a sound."""
        playing = self._until_ms != NEVER_MS
        if playing and sound == fx.SECOND:
            return
        if playing and now_ms == self._since_ms:
            self._after = sound
            return
        self._since_ms = now_ms
        self._after = _NOTHING
        self._notes = SOUNDS[sound]
        self._index = 0
        self._note(now_ms)

    def tick(self, now_ms):
        """The next note, when this one has lasted."""
        if self._until_ms == NEVER_MS or now_ms < self._until_ms:
            return
        self._index += 1
        if self._index < len(self._notes):
            self._note(now_ms)
            return
        after, self._after = self._after, _NOTHING
        self.quiet()
        if after != _NOTHING:
            self.play(after, now_ms)

    def due_ms(self):
        """When `tick` has something to do [ms], or NEVER_MS."""
        return self._until_ms

    def quiet(self):
        """Silence."""
        self._pwm.duty_u16(0)
        self._until_ms = NEVER_MS

    def _note(self, now_ms):
        hertz, length_ms = self._notes[self._index]
        if hertz:
            self._pwm.freq(hertz)
        self._pwm.duty_u16(_ON if hertz else 0)
        self._until_ms = now_ms + length_ms
