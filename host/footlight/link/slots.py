"""Which slot a sequence goes to."""

import msgspec

from footlight.errors import act, field
from footlight.link.channel import Channel
from footlight.link.errors import LinkError, OtherMakeError
from footlight.link.replies import Limits, Slot


class NoFreeSlotError(LinkError):
    """Every slot is in use, by other titles."""


def in_use(channel: Channel) -> list[Slot]:
    """The slots that hold a sequence, by number."""
    listed = channel.ask("slots").get("slots")
    try:
        return sorted(msgspec.convert(listed, list[Slot]), key=lambda slot: slot.number)
    except msgspec.ValidationError as error:
        raise OtherMakeError(f"{channel.name}: the list of slots has another shape ({error})") from error


def choose(slots: list[Slot], title: str, count: int) -> int:
    """The slot that holds that title already, else the first free one of `count`.

    Raises NoFreeSlotError, naming what is there.
    """
    for slot in slots:
        if slot.title == title:
            return slot.number
    # A damaged slot has no title: it holds nothing that could be lost.
    used = {slot.number for slot in slots if slot.title}
    for number in range(1, count + 1):
        if number not in used:
            return number
    listed = ", ".join(f"{slot.number} {slot.title}" for slot in slots)
    raise NoFreeSlotError(
        f"no free slot for '{title}': {listed}; empty one with {act('clear NUMBER')} "
        f"or name the one to replace with {field('slot')}"
    )


def limits(channel: Channel) -> Limits:
    """What the controller can hold."""
    return channel.ask_for(Limits, "limits")


def clear(channel: Channel, number: int) -> None:
    """Empty a slot. Raises RefusedError('no_slot') when it is empty already."""
    channel.ask("clear", slot=number)
