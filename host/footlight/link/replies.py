"""The shapes of replies that are more than one number, checked as they arrive."""

import msgspec


class Greeting(msgspec.Struct, frozen=True):
    """The controller's answer to `hello`."""

    protocol: int
    least: int
    most: int
    schema: str
    build: int
    id: str
    epoch: str
    agreed: bool


class Limits(msgspec.Struct, frozen=True):
    """What the controller can hold: sizes in bytes, times in ms."""

    bytes: int
    steps: int
    slots: int
    chunk: int
    light_cap_ms: int


class Slot(msgspec.Struct, frozen=True, array_like=True):
    """A slot in use: number, title as the display shows it ("" when damaged), first 16 of its SHA-256."""

    number: int
    title: str
    sha: str


class RecordReply(msgspec.Struct, frozen=True):
    """One record of the journal, and how far the journal reaches."""

    epoch: str
    first: int
    last: int
    line: str
