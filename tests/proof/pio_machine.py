"""One PIO state machine, a cycle at a time, for numbers and for symbols alike.

Written from the RP2040 data sheet, 3.4 (the instruction set) and 3.5 (side-set), for what a program with two
side-set bits and no delays can do. Each cycle also carries a watch: what has been lit so far, how long the
pin has been high, when a word came. `Numbers` makes it a machine to run, `Symbols` one to reason about.
"""

from dataclasses import dataclass, replace
from typing import Any

import z3

MASK = (1 << 24) - 1
EMPTY, ZERO, WORD = 0, 1, 2  # what waits in the queue: nothing, a word of 0, any other word
PIN_CYCLES = 5  # dark at the latest after so many cycles of a high pin
WORD_CYCLES = 7  # and after so many lit cycles since a word other than 0 came into the empty queue
_MOST_PIN, _MOST_WORD = PIN_CYCLES + 1, WORD_CYCLES + 1
_X, _Y, _OSR = 1, 2, 7


class Numbers:
    """Whole numbers of 32 bits and truth values."""

    @staticmethod
    def choose(condition, yes, no):
        return yes if condition else no

    @staticmethod
    def both(*conditions):
        return all(conditions)

    @staticmethod
    def either(*conditions):
        return any(conditions)

    @staticmethod
    def no(condition):
        return not condition

    @staticmethod
    def word(value):
        return value & 0xFFFFFFFF

    @staticmethod
    def at_most(a, b):
        return a <= b


class Symbols:
    """The same for z3: bit vectors, compared without a sign."""

    choose = staticmethod(z3.If)
    both = staticmethod(z3.And)
    either = staticmethod(z3.Or)
    no = staticmethod(z3.Not)
    at_most = staticmethod(z3.ULE)

    @staticmethod
    def word(value):
        return value


@dataclass(frozen=True, slots=True)
class State:
    """Registers, the queue's head, and the watch. `n`: ticks of the first word."""

    n: Any
    x: Any
    y: Any
    osr: Any
    isr: Any
    queue: Any
    ticks: Any  # cycles with the gate high, in whole ticks of five cycles
    cycles: Any  # and what is over, 0 to 4
    ended: Any  # it was lit and went dark
    pin: Any  # cycles in a row with the pin high, counted to 6
    came: Any  # has a word other than 0 come?
    since: Any  # lit cycles since then, counted to 8
    pushes: Any


@dataclass(frozen=True, slots=True)
class Inputs:
    """What may happen in a cycle: the pin's level, a word into the queue, and which words those are."""

    pin: Any
    put: Any
    first: Any  # the first word
    word: Any  # the word that is not 0


@dataclass(frozen=True, slots=True)
class Cycle:
    """What a cycle did: the next place and state, and the properties that it kept."""

    place: Any
    state: State
    kept: dict[str, Any]


def cycle(opcode: int, place: int, last: int, state: State, inputs: Inputs, on: Any) -> Cycle:
    """One cycle of the instruction at `place`; `last`: the program's last place, from which it wraps."""
    if opcode & 0x0700:
        raise ValueError(f"opcode {opcode:04x} has a delay")
    gate, pump = bool(opcode & 0x0800), bool(opcode & 0x1000)
    following = 0 if place == last else place + 1
    after, place_after, pushed = _execute(opcode, place, following, state, inputs, on)
    watched = _watch(state, after, gate, inputs, on)
    return Cycle(place_after, watched, _properties(state, watched, gate, pump, pushed, on))


def _execute(opcode, place, following, state, inputs, on):
    kind, target, low = opcode >> 13, opcode >> 5 & 7, opcode & 31
    if kind == 0:
        return _jump(target, low, following, state, inputs, on)
    if kind == 4 and target & 4:
        return _pull(bool(target & 1), place, following, state, inputs, on)
    if kind == 4:
        return replace(state, isr=on.word(state.isr * 0), pushes=state.pushes + 1), following, state.isr
    if kind == 2:
        return replace(state, isr=_shifted(state.isr, _source(target, state), low, on)), following, None
    if kind == 3:
        return _written(state, target, state.osr & ((1 << low) - 1)), following, None
    if kind == 5 and not low & 0x18:
        return _written(state, target, _source(low & 7, state)), following, None
    if kind == 7:
        return _written(state, target, state.x * 0 + low), following, None
    raise ValueError(f"opcode {opcode:04x} is none that the lamp needs")


def _jump(condition, address, following, state, inputs, on):
    taken = {
        0: lambda: True,
        1: lambda: state.x == 0,
        3: lambda: state.y == 0,
        4: lambda: state.y != 0,
        6: lambda: inputs.pin,
    }[condition]()
    # 'y--' counts whether it jumps or not.
    after = replace(state, y=on.word(state.y - 1)) if condition == 4 else state
    return after, address if taken is True else on.choose(taken, address, following), None


def _pull(blocks, place, following, state, inputs, on):
    """`pull block` waits for the first word; `pull noblock` takes X where the queue is empty."""
    waits = state.queue == EMPTY
    if blocks:
        n = on.choose(waits, state.n, inputs.first & MASK)
        osr = on.choose(waits, state.osr, inputs.first)
        after = replace(state, n=n, osr=osr, came=on.both(waits, state.came))
        return replace(after, queue=state.queue * 0), on.choose(waits, place, following), None
    word = on.choose(state.queue == ZERO, state.x * 0, inputs.word)
    return replace(state, osr=on.choose(waits, state.x, word), queue=state.queue * 0), following, None


def _source(code, state):
    return {_X: state.x, _Y: state.y, _OSR: state.osr}[code]


def _written(state, code, value):
    return replace(state, **{{_X: "x", _Y: "y", _OSR: "osr"}[code]: value})


def _shifted(isr, value, bits, on):
    return on.word((isr << bits) | (value & ((1 << bits) - 1)))


def _watch(before, after, gate, inputs, on):
    accepted = after.queue == EMPTY
    came_now = on.both(accepted, inputs.put == WORD)
    since = before.since
    if gate:
        since = on.choose(before.came, on.choose(on.at_most(_MOST_WORD, since), since, since + 1), since)
    pin = on.choose(on.at_most(_MOST_PIN, before.pin), before.pin, before.pin + 1)
    if gate:
        full = before.cycles == 4
        ticks, cycles = on.choose(full, before.ticks + 1, before.ticks), before.cycles + 1
        after = replace(after, ticks=ticks, cycles=on.choose(full, before.cycles * 0, cycles))
    return replace(
        after,
        queue=on.choose(accepted, inputs.put, after.queue),
        ended=before.ended if gate else on.either(before.ended, _was_lit(before, on)),
        pin=on.choose(inputs.pin, pin, before.pin * 0),
        came=on.either(after.came, came_now),
        since=since,
    )


def _properties(before, after, gate, pump, pushed, on):
    left = None if pushed is None else (pushed + 1) & MASK
    told = True if left is None else on.both(on.at_most(left, before.n), before.ticks == before.n - left)
    ticks, n = after.ticks, before.n
    # Not `at_most(ticks * 5 + cycles, n * 5)`: a solver has a hard time with products.
    short = on.either(on.both(ticks == n, after.cycles == 0), on.both(on.at_most(ticks, n), ticks != n))
    return {
        "the pump is never alone": gate or not pump,
        "no second light": on.no(before.ended) if gate else True,
        "lit for 5 N cycles at most": short,
        "dark 5 cycles after the pin": on.at_most(after.pin, PIN_CYCLES) if gate else True,
        "no edge with the pin high": on.either(_was_lit(before, on), before.pin == 0) if gate else True,
        "dark 7 lit cycles after a word": on.at_most(after.since, WORD_CYCLES) if gate else True,
        "the remainder is told once, within a tick": on.both(on.at_most(after.pushes, 1), told),
    }


def _was_lit(state, on):
    return on.either(state.ticks != 0, state.cycles != 0)
