"""Put a sequence on the controller: it is kept in the notebook, sent, and noted where it went."""

from pathlib import Path

from footlight.link import find, journal, upload
from footlight.link.channel import Channel
from footlight.link.upload import Delivery
from footlight.notebook.book import notebook
from footlight.notebook.journal import programs
from footlight.notebook.sheets import by_number
from footlight.sequence import Compiled

__all__ = ["Delivery", "as_kept", "keep_and_send", "send_sequence"]


def send_sequence(
    compiled: Compiled,
    book: Path,
    now_s: int,
    *,
    port: str | None = None,
    slot: int | None = None,
    progress: upload.Progress = lambda sent, total: None,
) -> Delivery:
    """Send to the controller at `port`, or to the only one. Raises LinkError; the slot then holds what it
    held, and the same call goes on from there.

    slot: which to replace; without it that of the same title, else a free one. now_s: the computer's time
    [s since 1970]. progress: told (bytes there, bytes in all).
    """
    channel = find.connect(port, unix_s=now_s)
    try:
        return keep_and_send(channel, compiled, book, now_s, slot=slot, progress=progress)
    finally:
        channel.close()


def keep_and_send(
    channel: Channel,
    compiled: Compiled,
    book: Path,
    now_s: int,
    *,
    slot: int | None = None,
    progress: upload.Progress = lambda sent, total: None,
) -> Delivery:
    """The same over a greeted link.

    It is kept first: a run of a sequence that no notebook knows could never be held against its plan.
    """
    kept = as_kept(compiled)
    with notebook(book, writing=True) as connection:
        programs.store(connection, kept, now_s)
        delivery = upload.send(
            channel, compiled.data, compiled.sha256, kept.title, slot=slot, progress=progress
        )
        assert channel.greeting is not None
        programs.note_sent(connection, kept, channel.greeting.id, delivery.slot, now_s)
        journal.count_on(channel, by_number.greatest(connection, channel.greeting.id))
    return delivery


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
