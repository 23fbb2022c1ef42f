"""Everything bad that a printer can meet, brought about on the bench; the fault or the ending is left behind.

Each takes a bench with a run of `LIGHT_FIRST` (or of what `PROGRAMS` says) at its first step.
"""

import json
from collections.abc import Callable
from typing import Any

from tests.controller.stage import LIGHT, LIGHT_FIRST, channel, program, status

from footlight.bench import Bench
from footlight.bench import events as ev
from footlight_core import states as st

BRIGHT_V, DARK_V, SEEN_AFTER_MS = 2.5, 0.0, 40
BLOCKS = range(352)

Worst = Callable[[Bench], None]


def lit(bench: Bench) -> None:
    """Two seconds into the first light."""
    bench.run_for(700)
    bench.tap()
    bench.run_for(2_000)
    assert bench.lamp


def whole(bench: Bench) -> None:
    lit(bench)
    bench.run_for(4_000)


def in_a_bath(bench: Bench) -> None:
    """The first light given, three seconds into the bath after it."""
    whole(bench)
    bench.tap()
    bench.run_for(3_000)


def at_rest(bench: Bench) -> None:
    """The run is left by the menu; nothing is under way."""
    bench.run_for(700)
    bench.hold()
    for _ in range(4):
        bench.run_for(600)
        bench.tap()
    bench.run_for(600)
    bench.hold()
    bench.run_for(1_500)
    assert status(bench)["state"] == "idle"


# -- the pedal -------------------------------------------------------------------------------------


def stuck(bench: Bench) -> None:
    bench.press()
    bench.run_for(12_000)
    bench.release()


def stuck_on_a_light(bench: Bench) -> None:
    lit(bench)
    stuck(bench)


def foot(bench: Bench) -> None:
    bench.press()
    bench.run_for(9_000)
    bench.release()


def foot_in_a_bath(bench: Bench) -> None:
    in_a_bath(bench)
    foot(bench)


def wire(bench: Bench) -> None:
    lit(bench)
    bench.contacts(False, False)
    bench.run_for(400)
    bench.release()


def wet(bench: Bench) -> None:
    lit(bench)
    for _ in range(20):
        bench.press()
        bench.run_for(35)
        bench.release()
        bench.run_for(35)


# -- the lamp --------------------------------------------------------------------------------------


def welded(bench: Bench) -> None:
    lit(bench)
    bench.sense(BRIGHT_V)
    bench.run_for(6_000)


def welded_after_a_stop(bench: Bench) -> None:
    lit(bench)
    bench.sense(BRIGHT_V)
    bench.tap()
    bench.run_for(2_000)


def dead(bench: Bench) -> None:
    bench.sense_lamp(BRIGHT_V, SEEN_AFTER_MS)
    whole(bench)
    bench.sense_lamp(DARK_V, SEEN_AFTER_MS)
    bench.run_for(700)
    bench.tap()
    bench.run_for(500)


def goes_out(bench: Bench) -> None:
    bench.sense_lamp(BRIGHT_V, SEEN_AFTER_MS)
    lit(bench)
    bench.sense(DARK_V)
    bench.run_for(500)


def stray(bench: Bench) -> None:
    bench.run_for(2_000)
    bench.sense(BRIGHT_V)
    bench.run_for(200)


def stray_at_rest(bench: Bench) -> None:
    at_rest(bench)
    stray(bench)


def leg(bench: Bench) -> None:
    """Power goes in a light; at the next start the low leg of the coil conducts for good."""
    lit(bench)
    bench.cut_power()
    bench.spoil_coil("low shorted")
    bench.switch_on()
    bench.run_for(1_500)


def supply(bench: Bench) -> None:
    lit(bench)
    bench.spoil_coil("no supply")
    bench.run_for(500)


def white_open(bench: Bench) -> None:
    lit(bench)
    bench.spoil_coil("white shorted")
    bench.run_for(500)


def mute(bench: Bench) -> None:
    """The gate ends on time, and its report is lost."""
    bench.tell_box("mute")
    whole(bench)


def mute_at_a_stop(bench: Bench) -> None:
    bench.tell_box("mute")
    lit(bench)
    bench.tap()
    bench.run_for(4_000)


# -- the flash, the memory, the firmware -------------------------------------------------------------


def worn(bench: Bench) -> None:
    lit(bench)
    bench.wear_out(*BLOCKS)
    bench.tap()
    bench.run_for(200)


def worn_and_back(bench: Bench) -> None:
    worn(bench)
    assert status(bench)["fault"] == st.NO_RECORD
    bench.wear_out()
    bench.hold()


def full(bench: Bench) -> None:
    """At rest, with a long journal and hardly a block free: the next run is refused."""
    at_rest(bench)
    for day in range(400):
        channel(bench).greet(unix_s=1_800_000_000 + day * 86_400)
    bench.tell_box("flash fill 9")
    bench.hold()
    bench.run_for(300)


def error(bench: Bench) -> None:
    lit(bench)
    bench.tell_box("raise")
    bench.run_for(200)


def memory(bench: Bench) -> None:
    lit(bench)
    bench.tell_box("raise memory")
    bench.run_for(200)


def memory_short(bench: Bench) -> None:
    at_rest(bench)
    bench.tell_box("eat 18000")
    bench.run_for(10)
    bench.hold()
    bench.run_for(300)


def lost(bench: Bench) -> None:
    """Power goes in a light, and a record of the part before it has rotted in the flash meanwhile."""
    part(bench)
    lit(bench)
    bench.cut_power()
    rot(bench, '"k":"gave"')
    bench.switch_on()


def lost_beginning(bench: Bench) -> None:
    """It is the record of the arming that has rotted, so the run is forgotten."""
    for _ in range(3):
        part(bench)
    bench.cut_power()
    rot(bench, '"k":"arm"')
    bench.switch_on()


def mended(bench: Bench) -> None:
    """Power goes at rest, and a bit of the ledger falls: on a folder, for littlefs checks so small a file."""
    at_rest(bench)
    bench.cut_power()
    path = next((bench.folder / "flash").rglob("ledger"))
    data = path.read_bytes()
    path.write_bytes(data[:-1] + bytes([data[-1] ^ 1]))
    bench.switch_on()


def sensor_rots(bench: Bench) -> None:
    """The same with what was learnt of the light sensor, and with its copy."""
    at_rest(bench)
    channel(bench).ask("fit", fitted=1)
    bench.cut_power()
    for path in (bench.folder / "flash").rglob("sensor*"):
        data = path.read_bytes()
        path.write_bytes(data[:-1] + bytes([data[-1] ^ 1]))
    bench.switch_on()


def part(bench: Bench) -> None:
    """A second or so of the light, then a stop."""
    bench.run_for(700)
    bench.tap()
    bench.run_for(1_000)
    bench.tap()


def rot(bench: Bench, told: str) -> None:
    """One bit of the last record with this text falls, in the file of the journal as it stands."""
    for path in [bench.folder / "flash.img", *sorted((bench.folder / "flash").glob("journal/*"))]:
        data = bytearray(path.read_bytes()) if path.exists() else bytearray()
        at = data.rfind(told.encode())
        if at >= 0:
            data[at + len(told) - 2] ^= 1
            path.write_bytes(data)
            return
    raise AssertionError(f"no record holds {told}")


# -- endings without a fault -------------------------------------------------------------------------


def stopped(bench: Bench) -> None:
    lit(bench)
    bench.tap()


def abandoned(bench: Bench) -> None:
    stopped(bench)
    bench.run_for(700)
    bench.hold()


def cut(bench: Bench) -> None:
    lit(bench)
    bench.cut_power()
    bench.switch_on()


def hung(bench: Bench) -> None:
    lit(bench)
    bench.hang()
    bench.run_for(6_000)


def cut_in_a_bath(bench: Bench) -> None:
    in_a_bath(bench)
    bench.cut_power()
    bench.switch_on()


PROGRAMS: dict[Worst, dict[str, Any]] = {dead: program(LIGHT, LIGHT)}


def program_of(worst: Worst) -> dict[str, Any]:
    """The program that it is brought about in."""
    return PROGRAMS.get(worst, LIGHT_FIRST)


def given_ms(bench: Bench) -> dict[int, float]:
    """Light that each step has had by the gate, if the lamp burnt [ms]; the dead time gives none."""
    given: dict[int, float] = {}
    step, since_us = 0, 0
    for event in bench.events:
        if event.kind == ev.RECORD:
            record = json.loads(event.text)
            step = record["step"] if record["k"] == "intent" else step
        elif event.kind == ev.GATE and event.value:
            since_us = event.t_us
        elif event.kind == ev.GATE and since_us:
            on_ms, since_us = (event.t_us - since_us) / 1000, 0
            given[step] = given.get(step, 0.0) + max(0.0, on_ms - int(LIGHT["dead_ms"]))
    return given
