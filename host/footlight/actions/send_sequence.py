"""Put a sequence on the controller: it is kept in the notebook, sent, and noted where it went."""

import sqlite3
from pathlib import Path

from footlight.errors import InputError, field
from footlight.link import find, journal, slots, upload
from footlight.link.channel import Channel
from footlight.link.upload import Delivery
from footlight.notebook.book import notebook
from footlight.notebook.journal import programs
from footlight.notebook.sheets import by_number
from footlight.sequence import Compiled
from footlight.sequence.warnings import small_trays

__all__ = ["Delivery", "as_kept", "keep_and_send", "send_sequence"]


def send_sequence(
    compiled: Compiled,
    book: Path,
    now_s: int,
    *,
    port: str | None = None,
    slot: int | None = None,
    in_place: bool = False,
    progress: upload.Progress = lambda sent, total: None,
) -> Delivery:
    """Send to the controller at `port`, or to the only one. Raises LinkError; the slot then holds what it
    held, and the same call goes on from there.

    slot: which to replace; without it that of the same title, else a free one. in_place: also where the slot
    of that title holds another sequence, or one for another size. now_s: the computer's time [s since 1970].
    progress: told (bytes there, bytes in all). Raises InputError for a sheet that lies in none of its trays.
    """
    refuse_small_trays(compiled)
    channel = find.connect(port, unix_s=now_s)
    try:
        return keep_and_send(channel, compiled, book, now_s, slot=slot, in_place=in_place, progress=progress)
    finally:
        channel.close()


def keep_and_send(
    channel: Channel,
    compiled: Compiled,
    book: Path,
    now_s: int,
    *,
    slot: int | None = None,
    in_place: bool = False,
    progress: upload.Progress = lambda sent, total: None,
) -> Delivery:
    """The same over a greeted link.

    It is kept first: a run of a sequence that no notebook knows could never be held against its plan.
    """
    kept = as_kept(compiled)
    with notebook(book, writing=True) as connection:
        programs.store(connection, kept, now_s)
        if slot is None and not in_place:
            _refuse_another(connection, channel, kept)
        delivery = upload.send(
            channel, compiled.data, compiled.sha256, kept.title, slot=slot, progress=progress
        )
        assert channel.greeting is not None
        programs.note_sent(connection, kept, channel.greeting.id, delivery.slot, now_s)
        journal.count_on(channel, by_number.greatest(connection, channel.greeting.id))
    return delivery


def refuse_small_trays(compiled: Compiled) -> None:
    """Raise InputError where a sheet would not lie flat in a tray: half of it would stay undeveloped."""
    small = small_trays(compiled.sequence)
    if small:
        raise InputError(
            f"{compiled.sequence.path}: {' '.join(small)} Nothing was sent: take larger trays, and say so"
        )


def _refuse_another(connection: sqlite3.Connection, channel: Channel, kept: programs.Sequence) -> None:
    """Raise InputError where the slot of that title holds what is known to be for another job."""
    for held in slots.in_use(channel):
        known = programs.job_of(connection, held.sha) if held.title == kept.title else None
        mine = programs.job(kept.name, kept.source)
        if known and known != mine:
            raise InputError(
                f"slot {held.number} holds '{kept.title}' already: {known}, and this is {mine}; add"
                f" {field('in_place')} to put it in place of that, or give it a title of its own"
            )


def as_kept(compiled: Compiled) -> programs.Sequence:
    """A compiled sequence as the notebook keeps it, with the files that it came from."""
    setups = compiled.sequence.setups_path
    return programs.Sequence(
        sha256=compiled.sha256,
        title=compiled.program["title"],
        name=compiled.program["name"],
        program=compiled.data.decode("ascii"),
        source=compiled.sequence.path.read_text("utf-8-sig"),
        arithmetic="\n".join(f"step {light.step_number}: {light.text}" for light in compiled.arithmetic),
        setups=setups.read_text("utf-8-sig") if setups else "",
    )
