"""An exception at any line of the safety path: what is done with a controller, and what must hold afterwards.

`PATHS` are pairs of what was done before, and the doing that is sabotaged at one of its lines of firmware. A
line counts once for each way that leads to it (the lines that called it), at its first run and at its last.
"""

import contextlib
import signal
from collections.abc import Callable, Iterator
from pathlib import Path

from tests.controller.invariants import Invariants
from tests.controller.stage import BATH, LIGHT, armed, channel, program, records, send, state

from footlight.bench import Bench
from footlight.link.errors import LinkError
from footlight_core import states as st

PROGRAM = program(LIGHT, BATH | {"white": 1})
# Where a person may find it afterwards. Never lit: nobody has pressed since.
RIGHT_STATES = set(st.STATES) - {st.LIT, st.FOCUS_LIT}
BRIGHT_V = 2.5
# Of real time; a trial takes a quarter of a second. Firmware that goes round for ever uses no virtual time.
LONGEST_S = 60

Doing = Callable[[Bench], None]


def _steps(*doings: Doing) -> Doing:
    def do(bench: Bench) -> None:
        for doing in doings:
            doing(bench)

    return do


def wait(span_ms: int) -> Doing:
    """Let time pass."""
    return lambda bench: bench.run_for(span_ms)


def down(bench: Bench) -> None:
    """The foot goes down, for a tap's time."""
    bench.press()
    bench.run_for(150)


def up(bench: Bench) -> None:
    """The foot comes up."""
    bench.release()
    bench.run_for(500)


def hold(bench: Bench) -> None:
    """A long press, and time to see what it does."""
    bench.hold()
    bench.run_for(700)


def _dead_lamp(bench: Bench) -> None:
    # Once a lamp was seen, its sensor must see it again each time.
    bench.sense(BRIGHT_V)
    bench.run_for(200)


def _torn_wire(bench: Bench) -> None:
    bench.contacts(False, False)
    bench.run_for(400)
    bench.contacts(False, True)
    bench.run_for(300)


def _power_cut(bench: Bench) -> None:
    bench.cut_power()
    bench.run_for(1_000)
    bench.switch_on()


def _talk(bench: Bench) -> None:
    channel(bench).ask("status")
    channel(bench).ask("records", first=1)


def _left(bench: Bench) -> None:
    # Out of the run that the bench had armed: back to idle by the menu.
    hold(bench)
    for _ in range(4):
        bench.tap()
        bench.run_for(600)
    hold(bench)


LIT = _steps(down, up, wait(1_500))
STOPPED = _steps(LIT, down, up)
IN_BATH = _steps(down, up, wait(6_000), down, up)
FOCUS = _steps(_left, down, up, hold)
PATHS: dict[str, tuple[Doing, Doing]] = {
    "starting": (down, up),
    "stopped": (LIT, _steps(down, up)),
    "to its end": (down, _steps(up, wait(5_500))),
    "arming": (_left, _steps(hold, hold)),
    "resumed": (STOPPED, _steps(down, up, wait(4_000))),
    "abandoned": (STOPPED, hold),
    "a bath to its end": (IN_BATH, _steps(wait(21_000), down, up)),
    "a wire in a light": (LIT, _torn_wire),
    "a lamp at the wrong time": (LIT, _steps(down, up, _dead_lamp)),
    "acknowledged": (_steps(LIT, _torn_wire), hold),
    "set-up light": (FOCUS, _steps(down, up, wait(1_000), down, up, hold)),
    "waking after a cut in a light": (_steps(LIT, _power_cut), _steps(wait(500), hold)),
    "asked in a light": (LIT, _steps(_talk, wait(300))),
}


def lines(path: str, folder: Path) -> list[int]:
    """Which lines of firmware to sabotage, by count: first runs of each line, then last ones."""
    before, doing = PATHS[path]
    with _bench(folder) as bench:
        before(bench)
        bench.tell_box("sabotage count")
        doing(bench)
        bench.tell_box("sabotage tell")
        bench.run_for(1)
        met = [event.text.split() for event in bench.events if event.kind == "line"]
    first, last = ({int(words[index]) for words in met} for index in (0, 1))
    return [*sorted(first), *sorted(last - first)]


def trial(path: str, line: int, folder: Path) -> tuple[str, list[str]]:
    """One exception at the n-th line of a path -> where that was ("" = it was never reached), what broke."""
    try:
        with _at_most(LONGEST_S):
            return _trial(path, line, folder)
    except TimeoutError:
        return "?", ["it goes round for ever"]


@contextlib.contextmanager
def _at_most(span_s: int) -> Iterator[None]:
    def over(*_: object) -> None:
        raise TimeoutError(f"after {span_s} s")

    before = signal.signal(signal.SIGALRM, over)
    signal.alarm(span_s)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)


def _trial(path: str, line: int, folder: Path) -> tuple[str, list[str]]:
    before, doing = PATHS[path]
    with _bench(folder) as bench:
        watcher = Invariants(bench)
        before(bench)
        bench.tell_box(f"sabotage {line}")
        # The computer may lose its answer by it; what else an exception may do is told afterwards.
        with contextlib.suppress(LinkError):
            doing(bench)
        places = [event.text for event in bench.events if event.kind == "sabotaged"]
        return (places[0], _afterwards(bench, watcher)) if places else ("", [])


def _bench(folder: Path) -> Bench:
    return armed(folder, PROGRAM, interpreter="cpython")


def _afterwards(bench: Bench, watcher: Invariants) -> list[str]:
    """Whatever it was: time for the watchdog, dark, then a person acknowledges, and the journal tells it."""
    bench.release()
    bench.sense(0.0)
    bench.run_for(12_000)
    wrong = ["it burns"] if bench.lamp or bench.gate else []
    if not bench.is_on:
        # It ended at the prompt before its watchdog ran: dark, until someone switches it on again.
        bench.switch_on()
        bench.run_for(500)
    hold(bench)
    watcher.finish()
    if bench.lamp or state(bench) not in RIGHT_STATES:
        wrong.append(f"found {state(bench)}")
    wrong += watcher.broken + _goes_on(bench)
    told = [record["n"] for record in records(bench)]
    return wrong if told == list(range(1, len(told) + 1)) else [*wrong, f"gaps in the journal: {told}"]


def _goes_on(bench: Bench) -> list[str]:
    # After the next power-up it is as ever: it takes programs, or says which run was broken off.
    bench.cut_power()
    bench.switch_on()
    bench.run_for(500)
    found = state(bench)
    if found == "idle":
        send(bench, PROGRAM, 2)
    return [] if found in ("idle", "broken") else [f"after power-up: {found}"]
