"""Controllers, their slots, and what was put into one, told to a person and to a script."""

from typing import Any

from footlight.actions.find_controllers import Look, state_of
from footlight.actions.list_slots import Slots
from footlight.actions.send_sequence import Delivery
from footlight.views.table import columns


def look_line(look: Look) -> str:
    """What a port turned out to be."""
    return f"{look.address}  {state_of(look)}" if look.is_controller else state_of(look)


def look_dict(look: Look) -> dict[str, Any]:
    """The same for a script."""
    greeting = look.greeting
    return {
        "port": look.address,
        "description": look.description,
        "controller": greeting.id if greeting else None,
        "build": greeting.build if greeting else None,
        "agreed": bool(greeting and greeting.agreed),
        "trouble": look.trouble,
    }


def slot_lines(slots: Slots) -> list[str]:
    """A row a slot that holds something, then how many are free."""
    rows = [[f"{slot.number}", slot.title or "(damaged)", slot.sha[:8]] for slot in slots.used]
    free = f"{slots.count - len(slots.used)} of {slots.count} slots free"
    return [*columns(["slot", "title", "hash"], rows), free]


def slots_dict(slots: Slots) -> dict[str, Any]:
    """The same for a script."""
    used = [{"slot": slot.number, "title": slot.title or None, "sha": slot.sha} for slot in slots.used]
    return {"slots": slots.count, "used": used}


def delivery_line(delivery: Delivery, length_bytes: int | None = None) -> str:
    """Where a sequence is now. length_bytes: of the whole program, left out if None."""
    already = "" if delivery.moved_bytes else " already"
    size = "," if length_bytes is None else f": {length_bytes} bytes,"
    return f"{delivery.title} is in slot {delivery.slot}{already}{size} hash {delivery.sha256[:8]}"
