"""The campaign on the pedal: what two contacts do in a wet darkroom, and what the gestures make of it.

A wave is a list of (make closed, rest closed, how long [ms]). Five things are asked of each one:

1. no false start: before a press was told, the contact was closed for 20 ms longer than it was open, in some
   span that ends there;
2. no gesture without its own press;
3. a solid press, at rest before and after, is told as a press, or the wave is told to be a fault;
4. a foot at a foot's pace is no fault, however its contacts bounce;
5. more than eight changes a second are one.
"""

import random
from collections import Counter
from collections.abc import Callable

from tests.soak.bits import Outcome

from footlight_core import gestures as g

Level = tuple[bool, bool, int]
WAVES = 200
SOLID_MS = 60
SURE_MS = 20  # the least that any press is closed for, bounce taken off: the fault model's figure
POLLS_MS = (1, 10)  # woken by each change, as on the bench; looking now and then, as on the chip
REST, DOWN, BETWEEN, BOTH = (False, True), (True, False), (False, False), (True, True)
FAULTS = {g.STUCK, g.WIRE, g.WET, g.TOO_LONG}


def _bounce(dice: random.Random) -> list[Level]:
    # Up to 6 ms; the contact is between its ends for some of it.
    return [(dice.random() < 0.4, False, dice.randrange(1, 3)) for _ in range(dice.randrange(4))]


def _press(dice: random.Random, closed_ms: int) -> list[Level]:
    return [*_bounce(dice), (*DOWN, closed_ms), *_bounce(dice)]


def tap(dice: random.Random) -> list[Level]:
    """One press, from a graze to a leaning foot."""
    closed_ms = dice.choice((2, 8, 15, 24, 25, 26, 60, 150, 400, 999, 1500, 8500, 11_000))
    return _press(dice, closed_ms)


def taps(dice: random.Random) -> list[Level]:
    """Several presses at a foot's pace."""
    wave: list[Level] = []
    for _ in range(dice.randrange(2, 5)):
        wave += _press(dice, dice.choice((60, 90, 150, 400, 1200)))
        wave.append((*REST, dice.choice((70, 200, 600))))
    return wave


def chatter(dice: random.Random) -> list[Level]:
    """Water in the plug: the contacts come and go as they like, then perhaps an honest press."""
    most_ms = dice.choice((3, 12, 30, 59))
    wave: list[Level] = []
    for _ in range(dice.randrange(4, 60)):
        wave.append((*dice.choice((REST, DOWN, BETWEEN, BOTH)), dice.randrange(1, most_ms + 1)))
    return [*wave, (*REST, dice.choice((70, 1_300))), *_press(dice, dice.choice((60, 400)))]


def spikes(dice: random.Random) -> list[Level]:
    """Interference: short closures with rest between them, too little in sum to be a foot."""
    wave: list[Level] = []
    for _ in range(dice.randrange(1, 40)):
        wave += [(*dice.choice((DOWN, BOTH)), dice.randrange(1, 7)), (*REST, dice.randrange(7, 40))]
    return wave


def broken_wire(dice: random.Random) -> list[Level]:
    """A contact that hangs open, or both that conduct, for a moment or for long."""
    hung = (*dice.choice((BETWEEN, BOTH)), dice.choice((5, 100, 249, 251, 700)))
    return [hung, *_press(dice, dice.choice((60, 400))), (*REST, 80), hung]


def wet(dice: random.Random) -> list[Level]:
    """Faster than any foot: two dozen changes, each long enough to be believed."""
    return [(*level, dice.randrange(41, 51)) for _ in range(12) for level in (DOWN, REST)]


KINDS: tuple[Callable[[random.Random], list[Level]], ...] = (tap, taps, chatter, spikes, broken_wire, wet)


def pedals(seed: int) -> Outcome:
    """Random waves of every kind, looked at each millisecond or each ten."""
    dice, breaches, counts = random.Random(seed), [], Counter[str]()
    for number in range(WAVES):
        kind, poll_ms = dice.choice(KINDS), dice.choice(POLLS_MS)
        wave = [(*REST, SOLID_MS), *kind(dice), (*REST, 2 * SOLID_MS)]
        seen, told = look(wave, poll_ms)
        where = f"wave {number} of seed {seed} ({kind.__name__}, each {poll_ms} ms)"
        wrongs = _wrongs(wave, seen, poll_ms, told) + _misjudged(kind.__name__, wave, told)
        breaches += [f"{where}: {wrong}: {told}" for wrong in wrongs]
        counts[kind.__name__] += 1
        counts["presses"] += sum(event == g.PRESS for _, event in told)
        counts["faults"] += sum(event in FAULTS for _, event in told)
    return WAVES, breaches, counts


def look(wave: list[Level], poll_ms: int) -> tuple[list[bool], list[tuple[int, int]]]:
    """What each look saw (closed?), and what was told: (number of the look, event)."""
    feet, seen, told = g.Gestures(), [], []
    levels = [(make, rest) for make, rest, span_ms in wave for _ in range(span_ms)]
    for number, (make, rest) in enumerate(levels[::poll_ms]):
        event = feet.feed(number * poll_ms, make, rest)
        seen.append(make and not rest)
        if event != g.NONE:
            told.append((number, event))
    return seen, told


def _wrongs(wave: list[Level], seen: list[bool], poll_ms: int, told: list[tuple[int, int]]) -> list[str]:
    wrongs = [
        f"false start at look {number}"
        for number, event in told
        if event == g.PRESS and _most_closed_ms(seen[:number], poll_ms) < SURE_MS
    ]
    if not _each_has_its_press([event for _, event in told]):
        wrongs.append("a gesture without its press")
    missed = len(_solid(wave)) - sum(event == g.PRESS for _, event in told)
    if missed > 0 and not FAULTS & {event for _, event in told}:
        wrongs.append(f"{missed} missed and nobody told")
    return wrongs


def _misjudged(kind: str, wave: list[Level], told: list[tuple[int, int]]) -> list[str]:
    faulty = bool(FAULTS & {event for _, event in told})
    honest = kind in ("tap", "taps") and max(span_ms for *_, span_ms in wave) < 8_000
    if honest and faulty:
        return ["a foot taken for a fault"]
    return ["wet, and nobody told"] if kind == "wet" and not faulty else []


def _most_closed_ms(seen: list[bool], poll_ms: int) -> int:
    # Of all spans that end now, the one with most closed over open [ms].
    sums = [0]
    for closed in reversed(seen):
        sums.append(sums[-1] + (poll_ms if closed else -poll_ms))
    return max(sums)


def _each_has_its_press(events: list[int]) -> bool:
    down = False
    for event in events:
        if event in (g.SHORT, g.LONG) and not down:
            return False
        down = event == g.PRESS or (down and event == g.COUNTS)
    return True


def _solid(wave: list[Level]) -> list[Level]:
    # A foot that nobody may overlook: surely down, surely at rest before it or after other feet.
    return [level for level in wave if level[:2] == DOWN and level[2] >= SOLID_MS]
