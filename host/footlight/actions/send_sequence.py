"""What `send` does with a compiled sequence: kept in the notebook, sent, noted."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from footlight.cli.terminal import free
from footlight.link import upload
from footlight.link.channel import Channel
from footlight.notebook.book import notebook
from footlight.notebook.journal import programs
from footlight.sequence import Compiled


def as_sent(compiled: Compiled) -> programs.Sequence:
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


def keep_and_send(
    channel: Channel,
    compiled: Compiled,
    book: Path,
    now_s: int,
    *,
    slot: int | None = None,
    progress: upload.Progress = lambda sent, total: None,
) -> upload.Sent:
    """Keep the sequence in the notebook, send it, and note where it went.

    It is kept first: a run of a sequence that no notebook knows could never be held against its plan.
    """
    kept = as_sent(compiled)
    with notebook(book, writing=True) as connection:
        programs.store(connection, kept, now_s)
        sent = upload.send(channel, compiled.data, compiled.sha256, kept.title, slot=slot, progress=progress)
        assert channel.greeting is not None
        programs.note_sent(connection, kept, channel.greeting.id, sent.slot, now_s)
    return sent


@contextmanager
def progress_bar(shown: bool) -> Iterator[upload.Progress]:
    """A bar for a person at a terminal; nothing where output is piped."""
    if not shown:
        yield lambda sent, total: None
        return
    with free(sys.stderr), click.progressbar(length=1, label="sending", file=sys.stderr) as bar:

        def tell(sent: int, total: int) -> None:
            bar.length = total
            bar.update(sent - bar.pos)

        yield tell
