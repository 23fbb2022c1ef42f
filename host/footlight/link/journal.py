"""Reading the controller's journal, from a record's number on; nothing is deleted before it is kept.

Every record carries its own check sum, which is verified here and not trusted to have been.
"""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from footlight.link.channel import Channel
from footlight.link.errors import LinkError, RefusedError
from footlight.link.plausible import is_plausible
from footlight.link.replies import RecordReply
from footlight_core import records, wire

# Of the shortest kind, more than the board's whole flash would hold (2 MiB of lines of 40 bytes).
MOST_RECORDS = 52_000


@dataclass(frozen=True)
class Entry:
    """One record. `line`: as it came; what was left of it if it is damaged.

    `record` is None when it is damaged or says what no controller can, or is of a kind that this program does
    not know; it is then `whole`.
    """

    number: int
    line: str
    record: dict[str, Any] | None
    whole: bool


@dataclass(frozen=True)
class Extent:
    """How far a journal reaches: the numbers of its oldest and its newest record, and of which memory."""

    epoch: str
    first: int
    last: int


def extent(channel: Channel) -> Extent:
    """How far the journal reaches now. An empty one has `last` before `first`."""
    try:
        reply = channel.ask_for(RecordReply, "records", first=1)
    except RefusedError as refused:
        if refused.name != "past_end" or channel.greeting is None:
            raise
        return Extent(channel.greeting.epoch, 1, 0)
    return Extent(reply.epoch, reply.first, reply.last)


def read(channel: Channel, first: int) -> Iterator[Entry]:
    """Every record from number `first` to the newest, one request each.

    Raises LinkError if the controller's memory was formatted meanwhile, or if it has no end of records.
    """
    reach = extent(channel)
    number = max(first, reach.first)
    last = reach.last
    end = number + MOST_RECORDS
    while number <= last:
        if last >= end:
            raise LinkError(
                f"{channel.name}: the controller tells of {last - number + 1} records more, and its memory "
                f"holds no {MOST_RECORDS}; what came is kept: switch it off and on, or install its program"
            )
        reply = channel.ask_for(RecordReply, "records", first=number)
        if reply.epoch != reach.epoch:
            raise LinkError(
                f"{channel.name}: the controller's memory was formatted while its journal was read"
            )
        yield verify(number, reply.line)
        # A run may go on while its beginning is read.
        last = reply.last
        number += 1


def verify(number: int, line: str) -> Entry:
    """A line -> its entry: whole if its check sum is right and it has that number."""
    data = line.encode("ascii", "replace")
    text = wire.unseal(data) if line else None
    record = records.unseal(data) if text is not None and _number_of(text) == number else None
    whole = text is not None and _number_of(text) == number and (record is None or is_plausible(record))
    return Entry(number, line, record if whole else None, whole)


def _number_of(text: str) -> int | None:
    try:
        record = json.loads(text)
    except ValueError:
        return None
    return record.get("n") if isinstance(record, dict) else None


def count_on(channel: Channel, sheet: int) -> None:
    """Tell the controller that sheet numbers up to this one are used.

    Where it may not hear it now, in a run or on a flash that fails, it is told the next time.
    """
    if channel.greeting is None or not channel.greeting.agreed or sheet < 1:
        return
    try:
        channel.ask("numbers", sheet=min(sheet, wire.MOST_SHEETS))
    except RefusedError as refused:
        if refused.name not in ("busy", "storage"):
            raise


def acknowledge(channel: Channel, last: int) -> bool:
    """Tell the controller that everything up to `last` is kept: it may delete it.

    False when a run is under way: it is then told the next time.
    """
    try:
        channel.ask("kept", last=last)
    except RefusedError as refused:
        if refused.name == "busy":
            return False
        raise
    return True
