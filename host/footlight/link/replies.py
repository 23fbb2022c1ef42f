"""The shapes of replies that are more than one number, checked as they arrive."""

from typing import Annotated

import msgspec

from footlight.kinds import BENCH_MARK

Count = Annotated[int, msgspec.Meta(ge=0, le=(1 << 31) - 1)]
Name = Annotated[str, msgspec.Meta(max_length=64, pattern=r"^[ -~]*$")]
Line = Annotated[str, msgspec.Meta(max_length=400)]


class Greeting(msgspec.Struct, frozen=True):
    """The controller's answer to `hello`."""

    protocol: Count
    least: Count
    most: Count
    schema: Name
    build: Count
    id: Name
    epoch: Name
    agreed: bool

    @property
    def is_bench(self) -> bool:
        """Is it the firmware on simulated parts? Its identity says so."""
        return self.id.startswith(BENCH_MARK.hex())


class Limits(msgspec.Struct, frozen=True):
    """What the controller can hold: sizes in bytes, times in ms."""

    bytes: Count
    steps: Count
    slots: Count
    chunk: Count
    light_cap_ms: Count


class Slot(msgspec.Struct, frozen=True, array_like=True):
    """A slot in use: number, title as the display shows it ("" when damaged), first 16 of its SHA-256."""

    number: Count
    title: Name
    sha: Name


class RecordReply(msgspec.Struct, frozen=True):
    """One record of the journal, and how far the journal reaches."""

    epoch: Name
    first: Count
    last: Count
    line: Line
