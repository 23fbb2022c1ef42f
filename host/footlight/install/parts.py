"""Display, sounds and white-light contact, worked from the prompt through the firmware's own files.

Nothing here can reach the lamp: its pins are not named, and its light is tried by the pedal alone (`lamp`).
"""

from collections.abc import Iterator
from contextlib import contextmanager

from footlight.install.maker import Check, Maker
from footlight.install.prompt import Prompt
from footlight.meanings import SOUNDS

HELPERS = """
import machine, time
from controller import board, pins, sound
display = board.screen()
buzzer = sound.Sound(machine.PWM(machine.Pin(pins.BUZZER), freq=1000, duty_u16=0))
white = machine.Pin(pins.WHITE, machine.Pin.OUT, value=0)
make, rest = board.contact(pins.PEDAL_MAKE), board.contact(pins.PEDAL_REST)
def play(number):
    buzzer.play(number, time.ticks_ms())
    while buzzer.due_ms() != sound.NEVER_MS:
        buzzer.tick(time.ticks_ms())
        time.sleep_ms(2)
def watch(span_ms):
    start, last, seen = time.ticks_us(), None, []
    while time.ticks_diff(time.ticks_us(), start) < span_ms * 1000:
        now = (make(), rest())
        if now != last:
            seen.append((time.ticks_diff(time.ticks_us(), start),) + now)
            last = now
        time.sleep_us(100)
    return seen
"""
_QUIET = "display.show('', False, 0)\nbuzzer.quiet()\nwhite(0)"
_DIGITS, _LETTERS = "12:34", "ABCDE"
_LEVELS = (1, 2, 3, 4)
_LEVEL_MS = 900
_BETWEEN_MS = 400


@contextmanager
def parts(prompt: Prompt) -> Iterator[None]:
    """The parts are there, and are dark, silent and open again at the end."""
    prompt.run(HELPERS)
    try:
        yield
    finally:
        prompt.run(_QUIET)


def try_display(prompt: Prompt, maker: Maker) -> list[Check]:
    """Both fonts the right way round, and every brightness."""
    checks = []
    for text, big in ((_DIGITS, True), (_LETTERS, False)):
        prompt.run(f"display.show({text!r},{big},2)")
        passed = maker.confirm(f"Does the display read {text}, upright, left to right, on all four modules?")
        checks.append(Check("display", f"reads {text}", passed))
    maker.say("Now from the lowest brightness to the highest, then dark.")
    for level in _LEVELS:
        prompt.run(f"display.show({_DIGITS!r},True,{level})\ntime.sleep_ms({_LEVEL_MS})")
    prompt.run("display.show('',False,0)")
    passed = maker.confirm("Four levels, each a little brighter, and now quite dark?")
    return [*checks, Check("display", "brightness levels and dark", passed)]


def try_sounds(prompt: Prompt, maker: Maker) -> list[Check]:
    """Every sound by its name, twice over."""
    maker.say("Open the tap and turn your back: each sound comes twice.")
    for number, name in enumerate(SOUNDS):
        maker.say(f"  {name}")
        prompt.run(f"for _ in range(2):\n play({number})\n time.sleep_ms({_BETWEEN_MS})")
    passed = maker.confirm(f"Were all {len(SOUNDS)} heard over the water, and could you tell them apart?")
    return [Check("sounds", f"{len(SOUNDS)} sounds told apart", passed)]


def try_white(prompt: Prompt, maker: Maker) -> list[Check]:
    """The white-light contact: open, closed, open. No paper out."""
    maker.ready("No paper out? The white-light module pulls in now.")
    prompt.run("white(1)")
    closed = maker.confirm("Did the white-light module pull in (its LED is lit)?")
    prompt.run("white(0)")
    opened = maker.confirm("Has it let go again?")
    return [Check("white light", "pulls in", closed), Check("white light", "lets go", opened)]
