"""See tonight: the controller and what it holds, the baths, the sheets that wait, and what comes next."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from footlight.actions.list_slots import Slots, list_slots
from footlight.errors import FootlightError, act
from footlight.link.errors import NoControllerError

if TYPE_CHECKING:
    from footlight.actions.list_baths import BathList
    from footlight.baths.flashed import Flashed


@dataclass(frozen=True)
class Tonight:
    """slots: what the controller holds, None where none answers; trouble: why, '' where none is plugged in.
    baths, waiting: None where the notebook knows none. next_act: a sentence."""

    slots: Slots | None
    trouble: str
    baths: "BathList | None"
    waiting: "Flashed | None"
    next_act: str


def see_tonight(
    book: Path, now_s: int, port: str | None = None, look: Callable[[str | None], Slots] = list_slots
) -> Tonight:
    """What stands at `now_s` [s since 1970]. A controller that is away is told and no error; a notebook that
    cannot be read raises NotebookError. look: asks the controller at a port for its slots."""
    slots, trouble = _slots(port, look)
    baths, waiting = _stock(book, now_s)
    return Tonight(slots, trouble, baths, waiting, _next_act(slots, baths, waiting))


def _slots(port: str | None, look: Callable[[str | None], Slots]) -> tuple[Slots | None, str]:
    try:
        return look(port), ""
    except NoControllerError:
        return None, ""
    except FootlightError as error:
        return None, error.text


def _stock(book: Path, now_s: int) -> "tuple[BathList | None, Flashed | None]":
    if not book.is_file():
        return None, None
    from footlight.actions.list_baths import list_baths
    from footlight.baths import flashed
    from footlight.notebook.book import notebook

    with notebook(book, writing=False) as connection:
        waiting = flashed.waiting(connection, now_s)
    baths = list_baths(book, now_s)
    return (baths if baths.shelf.in_use else None), waiting


def _next_act(slots: Slots | None, baths: "BathList | None", waiting: "Flashed | None") -> str:
    if slots is not None and not slots.used:
        steps = f"write a sequence with {act('new')}, look at it with {act('plan')}, and {act('send')} it"
        return f"the controller is empty: {steps}"
    spent = [one.bath.name for one in baths.shelf.in_use if one.state == "mix fresh"] if baths else []
    if spent:
        return f"mix fresh: {', '.join(spent)} ({act('mix bath')})"
    if baths is None:
        return f"mix the baths and write them down ({act('mix bath')}, {act('bath mixed')})"
    if slots is None:
        return f"switch the controller on and plug it in, or practise on the bench ({act('bench')})"
    if waiting is None:
        return "pre-flash a batch of sheets, then expose them in the camera"
    return f"go through the check list ({act('ready')}), then arm the print at the pedal"
