"""Bring up a controller, from the first part to the last, and keep the record of it."""

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

from footlight.errors import InputError, act, field
from footlight.install import facts, lamp, parts, pedals, ports, reach
from footlight.install.errors import InstallError
from footlight.install.maker import Check, Maker
from footlight.install.prompt import Prompt
from footlight.link import transport
from footlight.link.channel import Channel
from footlight.link.errors import LinkError

PARTS = ("display", "sounds", "white light", "pedal", "lamp")


@dataclass(frozen=True)
class BringUp:
    """What was tried on which controller. `unix_s`: when [s since 1970]."""

    controller: str
    build: int
    micropython: str
    unix_s: int
    checks: list[Check]

    @property
    def failed(self) -> list[Check]:
        """What did not do what it should."""
        return [check for check in self.checks if check.passed is False]


def bring_up(
    port: str | None,
    maker: Maker,
    unix_s: int,
    *,
    open_stream: reach.Open = transport.open_stream,
    chosen: Sequence[str] = PARTS,
    pedal_count: int = 1,
) -> BringUp:
    """Try the chosen parts of the controller at `port`, or of the only one. It runs its own program again
    at the end."""
    address = port or ports.choose(transport.list_all)
    stream = open_stream(address)
    try:
        greeting = _greeting(Channel(stream))
        prompt = reach.at_prompt(stream)
        board = facts.look(prompt)
        try:
            checks = _at_prompt(prompt, maker, chosen, pedal_count)
        finally:
            reach.restart(prompt, stream)
    finally:
        stream.close()
    channel = reach.greeted(address, open_stream, unix_s)
    try:
        checks += lamp.try_lamp(channel, maker) if "lamp" in chosen else []
    finally:
        channel.close()
    return BringUp(greeting[0], greeting[1], board.version_text, unix_s, checks)


def _greeting(channel: Channel) -> tuple[str, int]:
    try:
        greeting = channel.greet()
    except LinkError as error:
        raise InstallError(f"{error}; then {act('install')} puts this version there") from error
    return greeting.id, greeting.build


def _at_prompt(prompt: Prompt, maker: Maker, chosen: Sequence[str], pedal_count: int) -> list[Check]:
    checks: list[Check] = []
    with parts.parts(prompt):
        if "display" in chosen:
            checks += parts.try_display(prompt, maker)
        if "sounds" in chosen:
            checks += parts.try_sounds(prompt, maker)
        if "white light" in chosen:
            checks += parts.try_white(prompt, maker)
        if "pedal" in chosen:
            checks += pedals.try_pedals(prompt, maker, pedal_count)
    return checks


def record(result: BringUp, path: Path) -> None:
    """Add it to a file, one line of JSON each time."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("a", encoding="utf-8") as file:
            file.write(json.dumps(asdict(result)) + "\n")
    except OSError as error:
        raise InputError(
            f"{path}: cannot be written ({error.strerror}); name another file with {field('record')}"
        ) from error
