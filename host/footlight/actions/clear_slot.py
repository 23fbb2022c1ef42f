"""Take a sequence out of its slot."""

from footlight.errors import InputError, act
from footlight.link import find, slots


def clear_slot(number: int, port: str | None = None) -> str:
    """Empty a slot of the controller at `port`, or of the only one -> the title that it held, '' for
    something damaged. Raises LinkError; InputError for a slot that there is not, or that is empty."""
    channel = find.connect(port)
    try:
        count = slots.limits(channel).slots
        if not 1 <= number <= count:
            raise InputError(
                f"slot {number}: the controller has slots 1 to {count}; {act('slots')} lists them"
            )
        title = {slot.number: slot.title for slot in slots.in_use(channel)}.get(number)
        if title is None:
            raise InputError(f"slot {number} is empty already; {act('slots')} lists what is there")
        slots.clear(channel, number)
        return title
    finally:
        channel.close()
