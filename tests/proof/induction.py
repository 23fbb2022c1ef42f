"""The same for every N of 24 bits: an invariant for each place of the program, and that each cycle keeps it.

If the invariant holds at the start and every cycle leads from it into it, it holds for ever; and within it
every property of `pio_machine` holds in every cycle. z3 looks for a counterexample to each part by itself.
"""

from typing import Any

import z3
from tests.proof.pio_machine import EMPTY, MASK, WORD, WORD_CYCLES, Inputs, State, Symbols, cycle

_CYCLES_LIT = {
    6: 0,
    7: 1,
    8: 2,
    9: 3,
    10: 3,
    11: 4,
}  # of the tick under way, at each place of the loop
_SINCE_TAKEN = {7: 5, 8: 6, 9: 7}  # lit cycles since the word came, once it has been taken
_SINCE_WAITING = {6: 4, 7: 0, 8: 1, 10: 2, 11: 3}  # and while it still waits
_PIN = {6: 1, 7: 2, 8: 3, 9: 4, 10: 4, 11: 0}  # cycles that the pin has been high
_TAKES_X, _BREAKS = (6, 10, 11), 9
_PUSH, _STAY = 13, 14

Formulas = dict[str, Any]


def unproved(opcodes: list[int]) -> set[str]:
    """What could not be shown: parts of the invariant, and properties. Empty: it holds for every N."""
    last = len(opcodes) - 1
    missing = _refuted([], {"start": z3.And(*_invariant(0, _start()).values())})
    for place, opcode in enumerate(opcodes):
        state, inputs, given = _any_state(), _any_inputs(), []
        given += [*_invariant(place, state).values(), *_sound(state, inputs)]
        after = cycle(opcode, place, last, state, inputs, Symbols)
        goals = {name: _truth(kept) for name, kept in after.kept.items()}
        missing |= _refuted(given, goals | _kept(after.place, after.state, len(opcodes)))
    return missing


def _kept(place: Any, state: State, places: int) -> Formulas:
    """The invariant of whatever place comes next."""
    goals: Formulas = {}
    for following in range(places):
        here = place == following
        if here is False:
            continue
        for name, formula in _invariant(following, state).items():
            goals[f"{name} at {following}"] = formula if here is True else z3.Implies(here, formula)
    return goals


def _invariant(place: int, s: State) -> Formulas:
    """What holds whenever the program comes to this place."""
    no_word = {"no word": z3.Implies(z3.Not(s.came), s.since == 0)}
    if place in _CYCLES_LIT:
        return no_word | _in_the_loop(place, s)
    if place < 6:
        never = z3.And(s.ticks == 0, s.cycles == 0, s.since == 0, s.pushes == 0)
        dark = {"dark until now": z3.And(z3.Not(s.ended), never)}
        return no_word | dark | _before_the_loop(place, s)
    return no_word | _after_the_loop(place, s)


def _before_the_loop(place: int, s: State) -> Formulas:
    ticks = {
        0: True,
        1: s.osr & MASK == s.n,
        2: s.y == s.n,
        3: z3.And(s.y == s.n, s.x == 0),
        4: z3.And(s.n == 0, s.y == 0xFFFFFFFF),
        5: z3.And(s.n != 0, s.y == s.n - 1, s.x == 0),
    }
    return {"ticks": z3.And(_is_short(s.n), ticks[place]), "word": z3.Implies(s.came, s.queue == WORD)}


def _in_the_loop(place: int, s: State) -> Formulas:
    counted = z3.And(s.ticks == s.n - 1 - s.y, s.cycles == _CYCLES_LIT[place])
    ticks = z3.And(_is_short(s.n), z3.ULT(s.y, s.n), counted)
    unlit = z3.And(s.ticks == 0, s.cycles == 0)
    zero = {7: True, 8: True, _BREAKS: s.x != 0}.get(place, s.x == 0)
    return {
        "ticks": ticks,
        "lit and not yet dark": z3.And(z3.Not(s.ended), s.pushes == 0),
        "x": zero,
        "pin": z3.And(z3.ULE(s.pin, _PIN[place]), z3.Implies(unlit, s.pin == 0)),
        "word": z3.Implies(s.came, _word(place, s)),
    }


def _word(place: int, s: State) -> Any:
    """The word still waits, for so long at most, or it has been taken and is on its way to the end."""
    waits = z3.And(s.queue == WORD, z3.ULE(s.since, _SINCE_WAITING.get(place, 0)))
    if place in _TAKES_X:
        return waits
    holds = {7: s.osr != 0, 8: s.x != 0, _BREAKS: True}[place]
    taken = z3.And(holds, z3.ULE(s.since, _SINCE_TAKEN[place]))
    return taken if place == _BREAKS else z3.Or(waits, taken)


def _after_the_loop(place: int, s: State) -> Formulas:
    """Y, less than nought once the count is done, tells the ticks that were not given."""
    told = z3.And(_is_short(s.n), z3.ULE(s.y + 1, s.n), s.ticks == s.n - 1 - s.y)
    had = z3.Or(z3.ULT(s.ticks, s.n), z3.And(s.ticks == s.n, s.cycles == 0))
    return {
        "light had": had,
        "word": z3.ULE(s.since, WORD_CYCLES),
        "rest": s.pushes == (1 if place == _STAY else 0),
        "what is left": told if place < _STAY else True,
        "what is told": s.isr & MASK == s.y & MASK if place == _PUSH else True,
    }


def _is_short(n: Any) -> Any:
    return z3.ULE(n, MASK)


def _any_state() -> State:
    words = {name: z3.BitVec(name, 32) for name in State.__slots__}
    return State(**(words | {"ended": z3.Bool("ended"), "came": z3.Bool("came")}))


def _any_inputs() -> Inputs:
    return Inputs(z3.Bool("high"), z3.BitVec("put", 32), z3.BitVec("first", 32), z3.BitVec("word", 32))


def _start() -> State:
    """A standing start: whatever the registers hold, nothing has been lit, told or put."""
    none = {name: z3.BitVecVal(0, 32) for name in ("queue", "ticks", "cycles", "pin", "since", "pushes")}
    flags = {"ended": z3.BoolVal(False), "came": z3.BoolVal(False), "n": z3.BitVecVal(0, 32)}
    values = {name: getattr(_any_state(), name) for name in State.__slots__}
    return State(**(values | none | flags))


def _sound(state: State, inputs: Inputs) -> list[Any]:
    """What the symbols stand for, and no more."""
    queues = [z3.ULE(value, WORD) for value in (state.queue, inputs.put)]
    return [*queues, inputs.word != 0, z3.ULE(state.pin, 6), z3.ULE(state.since, 8), EMPTY == 0]


def _truth(value: Any) -> Any:
    return z3.BoolVal(value) if isinstance(value, bool) else value


def _refuted(given: list[Any], goals: Formulas) -> set[str]:
    """The names of the goals to which there is a counterexample, or no answer."""
    solver = z3.Solver()
    solver.set("timeout", 20_000)
    solver.add(*[_truth(fact) for fact in given])
    missing = set()
    for name, goal in goals.items():
        solver.push()
        solver.add(z3.Not(_truth(goal)))
        if solver.check() != z3.unsat:
            missing.add(name)
        solver.pop()
    return missing
