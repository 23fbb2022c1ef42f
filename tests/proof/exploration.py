"""Every state that the lamp's program can reach with N ticks, whatever pin and words do in each cycle."""

from collections import deque
from dataclasses import dataclass, replace

from tests.proof.pio_machine import EMPTY, MASK, WORD, ZERO, Inputs, Numbers, State, cycle

PUTS = (EMPTY, ZERO, WORD)
_JUNK = 0x5A5A5A5A  # in every register at the start: whatever ran before
_MOST_STATES = 200_000


@dataclass
class Explored:
    """How many states were reached, at which places, and the properties that did not hold in some cycle."""

    states: int
    places: set[int]
    broken: set[str]
    whole: bool  # left alone it gives 5 N cycles exactly, and comes to rest


def explore(opcodes: list[int], ticks: int, name: str = "") -> Explored:
    """Breadth first from a standing start, with junk in the registers and in the first word's upper bits;
    only until the property of this name is broken."""
    first, word = 0xA5000000 | ticks, 0xFFFFFFFF
    start = (0, State(0, _JUNK, _JUNK, _JUNK, _JUNK, EMPTY, 0, 0, False, 0, False, 0, 0))
    choices = [Inputs(pin, put, first, word) for pin in (False, True) for put in PUTS]
    seen, waiting = {start}, deque([start])
    broken: set[str] = set()
    while waiting and len(seen) < _MOST_STATES and name not in broken:
        place, state = waiting.popleft()
        for inputs in choices:
            after = cycle(opcodes[place], place, len(opcodes) - 1, state, inputs, Numbers)
            broken |= {name for name, kept in after.kept.items() if not kept}
            reached = (after.place, _bounded(after.state))
            if reached not in seen:
                seen.add(reached)
                waiting.append(reached)
    whole = not waiting and _undisturbed(opcodes, first) == 5 * ticks
    return Explored(len(seen), {place for place, _ in seen}, broken, whole)


def _bounded(state: State) -> State:
    """A broken program may light or push for ever: one more than is allowed is enough to know."""
    if state.ticks <= state.n + 1 and state.pushes <= 2:
        return state
    return replace(state, ticks=min(state.ticks, state.n + 1), pushes=min(state.pushes, 2))


def _undisturbed(opcodes: list[int], first: int) -> int | None:
    """Cycles lit with nobody at the pedal and no further word; None if it never comes to rest."""
    place, state = 0, State(0, 0, 0, 0, 0, WORD, 0, 0, False, 0, False, 0, 0)
    inputs = Inputs(False, EMPTY, first, 1)
    for _ in range(20 * ((first & MASK) + 2)):
        after = cycle(opcodes[place], place, len(opcodes) - 1, state, inputs, Numbers)
        if (after.place, after.state) == (place, state):
            return 5 * state.ticks + state.cycles
        place, state = after.place, after.state
    return None
