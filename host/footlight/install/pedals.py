"""The pedal learnt: which contact is which, that every wire is there, how it moves."""

import time
from dataclasses import dataclass

from footlight.install.maker import Check, Maker
from footlight.install.prompt import Prompt

Contacts = tuple[int, int]  # make, rest; 1 = closed

UP: Contacts = (0, 1)
DOWN: Contacts = (1, 0)
OPEN: Contacts = (0, 0)
SHUT: Contacts = (1, 1)

_WAIT_S = 40.0
_LOOK_MS = 300
_NAMES = {UP: "up", DOWN: "pressed", OPEN: "both contacts open", SHUT: "both contacts closed"}
_WHY = {
    UP: "no press arrives: the pedal itself, or both its wires",
    DOWN: "make and rest are exchanged, or a foot is on it",
    OPEN: "the rest line is open: the plug is out, a wire is off, or jumper JP1 is missing for one pedal",
    SHUT: "the make line is shorted to ground: a solder bridge, or water in the pedal",
}


@dataclass(frozen=True)
class Moved:
    """How a movement went. `changes`: contact changes in it; `span_ms`: from the first to the last [ms]."""

    contacts: Contacts
    changes: int
    span_ms: float


def try_pedals(prompt: Prompt, maker: Maker, count: int) -> list[Check]:
    """Each pedal by itself, then the plug."""
    maker.ready("Foot off, pedal plugged in.")
    checks = [_reach(prompt, maker, UP, "at rest")]
    for number in range(1, count + 1):
        name = f"pedal {number}" if count > 1 else "the pedal"
        maker.say(f"Press {name} and keep it down.")
        checks.append(_reach(prompt, maker, DOWN, f"{name} pressed"))
        maker.say("Let go.")
        checks.append(_reach(prompt, maker, UP, f"{name} let go"))
    maker.say("Pull the pedal's plug out of the box.")
    checks.append(_reach(prompt, maker, OPEN, "plug out reads as a broken wire"))
    maker.say("Put it in again.")
    return [*checks, _reach(prompt, maker, UP, "plug in again")]


def _reach(prompt: Prompt, maker: Maker, wanted: Contacts, what: str) -> Check:
    moved = _watch(prompt, maker, wanted)
    if moved.contacts == wanted:
        measured = f"{moved.changes} changes in {moved.span_ms:.1f} ms"
        maker.say(f"  {_NAMES[wanted]}: {measured}")
        return Check("pedal", what, True, measured)
    # What is asked for is not what is there: the reading tells which wire it is.
    why = f"{_NAMES[moved.contacts]}: {_why(wanted, moved.contacts)}"
    maker.say(f"  not seen: {why}")
    return Check("pedal", what, False, why)


def _why(wanted: Contacts, found: Contacts) -> str:
    if wanted == OPEN and found == UP:
        return "the plug is still in, or the rest line is shorted to ground: a break would not end a light"
    return _WHY[found]


def _watch(prompt: Prompt, maker: Maker, wanted: Contacts) -> Moved:
    """Until the contacts have stayed as wanted for a whole look, or the wait is over."""
    deadline_s = time.monotonic() + _WAIT_S
    shown, moved = None, Moved(wanted, 0, 0.0)
    while True:
        seen = prompt.value(f"watch({_LOOK_MS})")
        now: Contacts = (seen[-1][1], seen[-1][2])
        if len(seen) > 1:
            moved = Moved(now, len(seen) - 1, (seen[-1][0] - seen[1][0]) / 1000)
        if now != shown and now != wanted:
            maker.say(f"  {_NAMES[now]}")
        shown = now
        quiet = len(seen) == 1
        if (quiet and now == wanted) or time.monotonic() > deadline_s:
            return Moved(now, moved.changes, moved.span_ms)
