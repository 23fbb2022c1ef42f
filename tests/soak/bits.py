"""Campaigns without a bench: frames, programs, uploads. Each trial is made from its own seed alone.

A campaign is a function (seed) -> (trials, breaches as text, what was counted besides).
"""

import hashlib
import json
import os
import random
import tempfile
from collections import Counter
from contextlib import contextmanager, suppress
from pathlib import Path

from tests.controller.stage import BATH, LAMP, LIGHT, program

from controller.store import Store
from footlight_core import program as programs
from footlight_core import session, wire
from footlight_core.errors import CoreError, ProgramError

Outcome = tuple[int, list[str], Counter[str]]
BASE = program(LIGHT, BATH, lamps=[LAMP, LAMP])
FRAMES = 2_000
HOSTILE = 500
UPLOADS = 20


class _Shelf:
    """Stands for store and journal; every change of it counts."""

    def __init__(self) -> None:
        self.changed = 0

    def state(self) -> dict[str, object]:
        return {"epoch": "ab", "first": 1, "last": 1}

    def line(self, number: int) -> str:
        return ""

    def slots(self) -> list[object]:
        return []

    def known(self) -> dict[str, object]:
        return {"fitted": 0, "lamps": []}

    def keep_up_to(self, what: object) -> None:
        self.changed += 1

    note_date = clear = fit = learn = keep_up_to

    def begin(self, *params: object) -> int:
        self.changed += 1
        return 0

    put = begin

    def commit(self, *params: object) -> str:
        self.changed += 1
        return "T"


def mutate(dice: random.Random, frame: bytes) -> bytes:
    """One to four small wrongs: bits, bytes lost, put in, doubled, the end cut off."""
    data = bytearray(frame)
    for _ in range(dice.randrange(1, 5)):
        at = dice.randrange(max(1, len(data)))
        kind = dice.randrange(5)
        if kind == 0 and data:
            data[at] ^= 1 << dice.randrange(8)
        elif kind == 1:
            del data[at : at + dice.randrange(1, 4)]
        elif kind == 2:
            data[at:at] = dice.randbytes(dice.randrange(1, 6))
        elif kind == 3:
            data[at:at] = data[at : at + dice.randrange(1, 30)]
        else:
            del data[at + 1 :]
    return bytes(data)


def _request(dice: random.Random, number: int) -> bytes:
    name, rules = dice.choice(wire.MESSAGES)[:2]
    params = {key: "0" * least if kind is str else least for key, kind, least, _ in rules}
    return wire.frame({"jsonrpc": "2.0", "id": f"aaaa.{number}", "method": name, "params": params})


def frames_to_controller(seed: int) -> Outcome:
    """A damaged request changes nothing; the next whole one is answered."""
    dice, shelf = random.Random(seed), _Shelf()
    talk = session.Session(shelf, shelf, {"id": "x"}, dict, lambda: True, lambda: None, abs, dict)
    lines, breaches, counts = wire.LineBuffer(), [], Counter[str]()
    hello = {"nonce": "aaaa", "least": 1, "most": 1, "schema": session.schema(), "unix_s": 0}
    whole = wire.frame({"jsonrpc": "2.0", "id": "aaaa.0", "method": "hello", "params": hello})
    greeted = _feed(talk, lines, whole)[0]
    for number in range(1, FRAMES + 1):
        request = _request(dice, number)
        spoilt = mutate(dice, request)
        before = shelf.changed
        replies = _feed(talk, lines, spoilt)
        if shelf.changed != before and request.strip() not in spoilt:
            breaches.append(f"frame {number} of seed {seed} changed something: {spoilt!r}")
        counts["answered"] += len(replies)
        # A frame that lost only its newline is ended, and answered, by the newline of the next.
        if _feed(talk, lines, whole)[-1:] != [greeted]:
            breaches.append(f"frame {number} of seed {seed}: not back in step after {spoilt!r}")
    return FRAMES, breaches, counts


def _feed(talk: session.Session, lines: wire.LineBuffer, data: bytes) -> list[bytes]:
    found = [line for byte in data if (line := lines.feed(byte))]
    return [reply for line in found if (reply := talk.handle(line))]


def frames_to_host(seed: int) -> Outcome:
    """A damaged reply is never another reply; the next whole one is read."""
    dice, lines, breaches, counts = random.Random(seed), wire.LineBuffer(), [], Counter[str]()
    for number in range(FRAMES):
        result = {"offset": dice.randrange(6144), "title": "x" * dice.randrange(200)}
        reply = {"jsonrpc": "2.0", "id": f"aaaa.{number}", "result": result}
        spoilt = mutate(dice, wire.frame(reply))
        read = [wire.decode(line)[0] for byte in spoilt + wire.frame(reply) if (line := lines.feed(byte))]
        counts["ignored"] += read.count(None)
        if not read or read[-1] != reply:
            breaches.append(f"reply {number} of seed {seed}: not back in step after {spoilt!r}")
        if any(message not in (None, reply) for message in read):
            breaches.append(f"reply {number} of seed {seed} was read as another: {spoilt!r}")
    return FRAMES, breaches, counts


_VALUES = (
    0,
    -1,
    1,
    59_999,
    120_001,
    1 << 24,
    1 << 40,
    10**30,
    True,
    None,
    1.5,
    "",
    "Z" * 500,
    "\x1b[2J",
    [],
    {},
)


def hostile_programs(seed: int) -> Outcome:
    """Whatever is in a program, it is refused in words or it keeps every cap."""
    dice, breaches, counts = random.Random(seed), [], Counter[str]()
    for number in range(HOSTILE):
        raw = json.loads(json.dumps(BASE))
        for _ in range(dice.randrange(1, 4)):
            _spoil(dice, raw)
        data = json.dumps(raw).encode()
        if dice.random() < 0.2:
            data = mutate(dice, data)
        try:
            accepted = programs.parse(data)
        except ProgramError as error:
            counts["refused"] += 1
            if not str(error).isprintable():
                breaches.append(f"program {number} of seed {seed}: unprintable words {error!r}")
            continue
        counts["accepted"] += 1
        if not _keeps_caps(accepted):
            breaches.append(f"program {number} of seed {seed} is over a cap: {data!r}")
    return HOSTILE, breaches, counts


def _spoil(dice: random.Random, raw: dict) -> None:
    target = dice.choice([raw, *raw["lamps"], *raw["steps"]] if _is_plain(raw) else [raw])
    if dice.random() < 0.7:
        known = [
            key for key in ("time_ms", "dead_ms", "cap_ms", "window_ms", "least_ms", "lamp") if key in target
        ]
        target[dice.choice(known or ["sheets"])] = dice.choice((dice.randrange(4), dice.randrange(130_000)))
    else:
        target[dice.choice([*target, "auto", "lamp", "../x", "time_ms"])] = dice.choice(_VALUES)


def _is_plain(raw: dict) -> bool:
    return all(
        isinstance(raw.get(key), list) and all(isinstance(item, dict) for item in raw[key])
        for key in ("lamps", "steps")
    )


def _keeps_caps(program: dict) -> bool:
    for step in program["steps"]:
        if step["kind"] == programs.LIGHT:
            lamp = program["lamps"][step["lamp"]]
            most_ms = min(lamp["cap_ms"], lamp["window_ms"], programs.LIGHT_CAP_MS)
            if step["auto"] or not 1 <= step["time_ms"] + step["dead_ms"] <= most_ms:
                return False
    return True


@contextmanager
def _own_folder():
    before = os.getcwd()
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        try:
            yield Path(folder)
        finally:
            os.chdir(before)


def broken_uploads(seed: int) -> Outcome:
    """Cut anywhere, chunks twice or out of order, restarts: only what was meant is ever held."""
    dice, breaches, counts = random.Random(seed), [], Counter[str]()
    with _own_folder():
        for number in range(UPLOADS):
            data = json.dumps(BASE | {"name": f"{number}"}).encode()
            sha = hashlib.sha256(data).hexdigest()
            store, tries = Store(), 0
            while not any(entry[1] == sha for entry in store.entries()):
                store, tries = _one_try(dice, store, data, sha), tries + 1
                if any(entry[2].startswith("?") for entry in store.entries()) or tries > 2_000:
                    breaches.append(f"upload {number} of seed {seed}: damaged or stuck: {store.entries()}")
                    break
            counts["tries"] += tries
    return UPLOADS, breaches, counts


def _one_try(dice: random.Random, store: Store, data: bytes, sha: str) -> Store:
    # A refusal is one of the ways in which a try may end.
    with suppress(CoreError):
        offset = store.begin(1, sha, len(data))
        while offset < len(data) and dice.random() < 0.95:
            at = max(0, offset - dice.choice((0, 0, 0, 7, 180))) + dice.choice((0, 0, 0, 0, 5))
            offset = store.put(1, at, data[at : at + dice.randrange(1, 181)])
        store.commit(1, sha)
    return Store() if dice.random() < 0.5 else store
