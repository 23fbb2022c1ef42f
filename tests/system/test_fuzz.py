"""Feet, cables, power and faults in any order: the invariants hold at every event. Each trial is its seed."""

import random
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.controller.invariants import Invariants
from tests.controller.stage import BATH, LIGHT, armed, program, records, state

from footlight.bench import Bench
from footlight.bench import events as ev
from footlight_core import states as st
from footlight_core import wire

PROGRAM = program(LIGHT, BATH | {"time_ms": 8_000, "lift_ms": 3_000}, LIGHT | {"time_ms": 1_500}, BATH)
ACTIONS = 80
Action = Callable[[Bench, random.Random], None]


def wait(bench: Bench, dice: random.Random) -> None:
    bench.run_for(dice.choice((0.7, 12.3, 150, 700, 3_000, 9_000)) * dice.random())


def tap(bench: Bench, dice: random.Random) -> None:
    bounce(bench, dice, True)
    bench.run_for(dice.choice((40, 150, 400)))
    bounce(bench, dice, False)
    bench.run_for(dice.choice((30, 80, 700)))


def hold(bench: Bench, dice: random.Random) -> None:
    bounce(bench, dice, True)
    bench.run_for(dice.choice((1_200, 3_000, 7_900, 9_000)))
    bounce(bench, dice, False)
    bench.run_for(700)


def bounce(bench: Bench, dice: random.Random, down: bool) -> None:
    """A changeover contact on its way: between its ends for a while, back and forth for up to 6 ms."""
    for _ in range(dice.randrange(4)):
        bench.contacts(dice.random() < 0.5 and down, False)
        bench.run_for(dice.random() * 2)
    bench.contacts(down, not down)


def tear_wire(bench: Bench, dice: random.Random) -> None:
    bench.contacts(False, False)
    bench.run_for(dice.choice((5, 300)))
    bench.release()


def babble(bench: Bench, dice: random.Random) -> None:
    bench.stream().write(dice.randbytes(dice.randrange(1, 200)))
    bench.run_for(1)


def ask(bench: Bench, dice: random.Random) -> None:
    message = dice.choice(wire.MESSAGES)
    params = {name: "0" * most if kind is str else most for name, kind, _, most in message[1]}
    if message[0] == "maintain":
        return
    bench.stream().write(
        wire.frame({"jsonrpc": "2.0", "id": "aaaa.1", "method": message[0], "params": params})
    )
    bench.run_for(5)


def lose_power(bench: Bench, dice: random.Random) -> None:
    bench.cut_power()
    bench.run_for(dice.randrange(1, 5_000))
    bench.switch_on()
    bench.run_for(50)


def hang(bench: Bench, dice: random.Random) -> None:
    bench.hang()
    bench.run_for(6_000)


def fail(bench: Bench, dice: random.Random) -> None:
    bench.tell_box("raise")
    bench.run_for(5)


COMMON: tuple[Action, ...] = (wait, tap, tap, tap, hold, babble, ask)
RARE: tuple[Action, ...] = (tear_wire, lose_power, hang, fail)


def trial(folder: Path, seed: int) -> list[str]:
    """One trial -> what was broken in it. The seed is all that it depends on."""
    dice = random.Random(seed)
    with armed(folder, PROGRAM, polls=seed % 2 == 1) as bench:
        watcher = Invariants(bench)
        for _ in range(ACTIONS):
            action = dice.choice(RARE if dice.random() < 0.1 else COMMON)
            action(bench, dice)
            if not bench.is_on:
                return [f"{action.__name__} switched it off: {bench.end}"]
        bench.release()
        bench.run_for(200_000)
        numbers = [record["n"] for record in records(bench)]
        if bench.lamp or state(bench) not in st.STATES:
            watcher.broken.append("it does not end in the dark, in a state that is known")
    if numbers != list(range(1, len(numbers) + 1)):
        watcher.broken.append(f"I8: {numbers}")
    return watcher.broken


@pytest.mark.parametrize("seed", range(12))
def test_any_order_of_anything(tmp_path: Path, seed: int):
    assert trial(tmp_path, seed) == []


def test_the_trials_do_light_the_lamp(tmp_path: Path):
    """A fuzz that never reaches a light would prove nothing."""
    lights = 0
    for seed in range(4):
        dice = random.Random(seed)
        with armed(tmp_path / str(seed), PROGRAM) as bench:
            for _ in range(ACTIONS):
                dice.choice(COMMON)(bench, dice)
            lights += sum(1 for event in bench.events if event.kind == ev.GATE and event.value)
    assert lights >= 10
