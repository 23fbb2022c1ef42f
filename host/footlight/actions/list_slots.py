"""What the controller holds."""

from dataclasses import dataclass

from footlight.link import find, slots
from footlight.link.replies import Slot


@dataclass(frozen=True)
class Slots:
    """count: how many there are. used: those that hold a sequence, by number."""

    count: int
    used: tuple[Slot, ...]


def list_slots(port: str | None = None) -> Slots:
    """The slots of the controller at `port`, or of the only one. Raises LinkError."""
    channel = find.connect(port)
    try:
        return Slots(slots.limits(channel).slots, tuple(slots.in_use(channel)))
    finally:
        channel.close()
