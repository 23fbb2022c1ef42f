"""What the tests of the app share: programs, a controller with one of them in slot 1, looks at its state."""

import hashlib
import json
from pathlib import Path
from typing import Any

from footlight.bench import Bench
from footlight.bench import events as ev
from footlight.bench.process import CPYTHON, MICROPYTHON, best_interpreter
from footlight.link import upload
from footlight.link.channel import Channel
from footlight_core import wire

INTERPRETERS = [MICROPYTHON, CPYTHON] if best_interpreter() == MICROPYTHON else [CPYTHON]

LAMP = {"name": "ENL", "cap_ms": 60_000, "window_ms": 300_000}
BATH = {"kind": "bath", "name": "developer", "show": "DEV", "time_ms": 20_000, "lift_ms": 5_000}
LIGHT = {"kind": "light", "name": "second", "show": "LIGHT", "time_ms": 5_000, "dead_ms": 50}


def program(*steps: dict[str, Any], **head: Any) -> dict[str, Any]:
    """A program of these steps."""
    return {"v": 1, "title": "PRINT", "name": "a print", "lamps": [LAMP], "steps": list(steps)} | head


SHORT_RUN = program(BATH, LIGHT, BATH | {"name": "fix", "show": "FIX", "white": 1})
LIGHT_FIRST = program(LIGHT, BATH)


def channel(bench: Bench) -> Channel:
    """A greeted channel to the controller, in the bench's own time."""
    stream = bench.stream()
    made = Channel(stream, clock=stream.clock)
    made.greet()
    return made


def send(bench: Bench, raw: dict[str, Any], slot: int = 1) -> str:
    """Put a program into a slot over the link -> its SHA-256."""
    data = wire.dumps(raw).encode()
    sha = hashlib.sha256(data).hexdigest()
    upload.send(channel(bench), data, sha, raw["title"], slot=slot)
    return sha


def switched_on(folder: Path, raw: dict[str, Any] = SHORT_RUN, **options: Any) -> Bench:
    """A controller that is on, with a program in slot 1 and nothing else to say."""
    bench = Bench(folder, **options)
    bench.switch_on()
    send(bench, raw)
    bench.run_for(5_000)
    return bench


def armed(folder: Path, raw: dict[str, Any] = SHORT_RUN, **options: Any) -> Bench:
    """The same, with a run under way at its first step."""
    bench = switched_on(folder, raw, **options)
    bench.hold()
    bench.run_for(700)
    bench.hold()
    bench.run_for(700)
    return bench


def status(bench: Bench) -> dict[str, Any]:
    """What the controller says of itself."""
    return channel(bench).ask("status")


def state(bench: Bench) -> str:
    """The sequencer's state."""
    return status(bench)["state"]


def records(bench: Bench, *kinds: str) -> list[dict[str, Any]]:
    """Every record that became durable, of these kinds."""
    told = [json.loads(event.text) for event in bench.events if event.kind == ev.RECORD]
    return [record for record in told if not kinds or record["k"] in kinds]


def gate_ms(bench: Bench) -> list[float]:
    """How long each exposure really was, by the gate [ms]."""
    spans, since_us = [], 0
    for event in bench.events:
        if event.kind == ev.GATE and event.value:
            since_us = event.t_us
        elif event.kind == ev.GATE and since_us:
            spans.append((event.t_us - since_us) / 1000)
            since_us = 0
    return spans
