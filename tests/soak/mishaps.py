"""What can go wrong in a darkroom, as actions on the bench: each takes the bench and its dice."""

import random
from collections.abc import Callable

from tests.system import test_fuzz as feet

from footlight.bench import Bench
from footlight.bench import events as ev

Action = Callable[[Bench, random.Random], None]
_BLOCKS = 352
_AT_EVENTS = (ev.GATE, ev.RECORD, ev.PROGRAM, ev.ERASE, ev.FRAME, ev.TONE, ev.WHITE, ev.KEYBOARD, ev.PUMP)
# Not at gate and pump, which the hardware moves and the box merely tells.
_PAUSES_AT = ("", "", ev.RECORD, ev.FRAME, ev.TONE, ev.KEYBOARD, ev.PROGRAM)


def stay_long(bench: Bench, dice: random.Random) -> None:
    """Nobody does anything."""
    bench.run_for(dice.choice((15_000, 40_000)) * dice.random())


def print_on(bench: Bench, dice: random.Random) -> None:
    """What a calm printer does: answers what is asked with a long press, then begins what comes."""
    bench.hold(1_500)
    bench.run_for(700)
    bench.tap()
    bench.run_for(dice.choice((500, 3_000, 7_000)))


def has_flash(bench: Bench) -> bool:
    """Is there a real file system beneath, with blocks that can fail?"""
    return bench.interpreter == "micropython"


def wet_chatter(bench: Bench, dice: random.Random) -> None:
    """Water in the pedal's plug: contacts that come and go, ten to thirty times a second."""
    for _ in range(dice.randrange(4, 30)):
        bench.contacts(*dice.choice(((True, False), (False, True), (False, False), (True, True))))
        bench.run_for(dice.choice((15, 25, 35, 60)))
    bench.release()
    bench.run_for(dice.choice((100, 2_000)))


def pause(bench: Bench, dice: random.Random) -> None:
    """A garbage collection of 1 to 300 ms, now or in the middle of what a foot brings about."""
    for _ in range(dice.randrange(1, 4)):
        bench.pause(dice.randrange(1, 301), dice.choice(_PAUSES_AT))
        dice.choice(feet.COMMON)(bench, dice)


def lose_power_at_an_event(bench: Bench, dice: random.Random) -> None:
    """At the n-th event of a kind, in the middle of what the firmware does there."""
    left, kind = dice.randrange(1, 6), dice.choice(_AT_EVENTS)
    (bench.press if dice.random() < 0.5 else bench.release)()
    for _ in range(left):
        bench.run_until_event(lambda event: event.kind == kind, 2_000, kind)
    bench.cut_power()
    bench.release()  # a pedal that is down at power-up asks for the prompt
    bench.run_for(dice.randrange(1, 5_000))
    bench.switch_on()
    bench.run_for(50)


def lose_power_in_a_write(bench: Bench, dice: random.Random) -> None:
    """At one of the next operations of the flash, of which a part happens; then power again."""
    if not has_flash(bench):
        return
    bench.tell_box(f"flash cut {dice.randrange(1, 9)} {dice.choice((0, 30, 70, 100))}")
    feet.hold(bench, dice)
    feet.tap(bench, dice)
    bench.run_for(3_000)
    if not bench.is_on:
        bench.run_for(dice.randrange(1, 5_000))
    else:
        bench.cut_power()
    bench.switch_on()
    bench.run_for(50)


def blocks_go_bad(bench: Bench, dice: random.Random) -> None:
    """Some blocks keep nothing any more, those among them that are being written; for good or for a while."""
    if not has_flash(bench):
        return
    used = [event.value for event in bench.events[-400:] if event.kind == ev.PROGRAM]
    anywhere = range(2, _BLOCKS)  # the first two hold the root: littlefs itself cannot live without them
    chosen = [
        dice.choice(used if used and dice.random() < 0.5 else anywhere) for _ in range(dice.randrange(9))
    ]
    bench.wear_out(*chosen)
    dice.choice(feet.COMMON)(bench, dice)


def flash_fills(bench: Bench, dice: random.Random) -> None:
    """Somebody else's file leaves hardly anything free; sooner or later it is gone again."""
    if has_flash(bench) and bench.is_on and not bench.lamp:
        bench.tell_box(f"flash fill {dice.choice((0, 1, 3, 10, 30, -1, -1, -1, -1))}")
        dice.choice(feet.COMMON)(bench, dice)


def lamp_strays(bench: Bench, dice: random.Random) -> None:
    """The sensor sees light with no exposure under way, or darkness, for a while."""
    bench.sense(dice.choice((0.0, 3.0)))
    bench.run_for(dice.choice((50, 2_500)))
    bench.sense(0.0)


def relay_welds(bench: Bench, dice: random.Random) -> None:
    """The sensor goes on seeing light after an exposure, until somebody unplugs the lamp."""
    print_on(bench, dice)
    bench.sense(3.0)
    bench.run_for(dice.choice((300, 8_000)))
    feet.tap(bench, dice)
    bench.sense(0.0)


def relay_dies(bench: Bench, dice: random.Random) -> None:
    """The sensor has seen this lamp; now it sees no light any more; then it is mended."""
    bench.sense_lamp(2.5, 40)
    print_on(bench, dice)
    bench.sense_lamp(0.0, 40)
    print_on(bench, dice)
    bench.sense_lamp(2.5, 40)


def display_is_disturbed(bench: Bench, dice: random.Random) -> None:
    """Noise of the relay in its registers."""
    bench.panel.disturb()
    bench.run_for(dice.choice((10, 1_100)))


def nobody_reads(bench: Bench, dice: random.Random) -> None:
    """The computer holds the port open and takes nothing; then it does again, or is gone."""
    bench.stream().listen(False)
    for _ in range(dice.randrange(1, 5)):
        dice.choice((feet.ask, feet.tap, feet.wait))(bench, dice)
    bench.stream().listen(True)
    bench.stream().take()


COMMON: tuple[Action, ...] = (*feet.COMMON, stay_long, print_on, print_on)
RARE: tuple[Action, ...] = (
    *feet.RARE,
    wet_chatter,
    pause,
    pause,
    lose_power_at_an_event,
    lose_power_in_a_write,
    blocks_go_bad,
    flash_fills,
    lamp_strays,
    relay_welds,
    relay_dies,
    display_is_disturbed,
    nobody_reads,
)
