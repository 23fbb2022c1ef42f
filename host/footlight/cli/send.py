"""`footlight send`: put a sequence on the controller."""

import time
from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, port_option, print_json, shows_progress


@click.command("send")
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--slot",
    type=click.IntRange(1),
    help="Slot to replace. Without it: that of the same title, else a free one.",
)
@port_option
@notebook_option
@json_option
def command(file: Path, slot: int | None, port: str | None, book: Path, as_json: bool) -> None:
    """Check FILE, compile it and send it to a slot of the controller.

    What was cut off goes on from where it stopped when the same command is given again; until the whole
    has arrived and was checked, the slot holds what it held before. The notebook keeps what was sent.

    \b
    Example:
      footlight send reversal-print.toml
      footlight send reversal-print.toml --slot 2
    """
    from footlight import sequence
    from footlight.cli import ahead, sending
    from footlight.link import find

    compiled = sequence.compile(sequence.load(file))
    now_s = int(time.time())
    for warning in [*compiled.warnings, *ahead.notes(ahead.baths_ahead(compiled, book, now_s))]:
        click.echo(f"note: {warning}", err=True)
    channel = find.connect(port, unix_s=now_s)
    with sending.progress_bar(shown=shows_progress(as_json)) as tell:
        sent = sending.keep_and_send(channel, compiled, book, now_s, slot=slot, progress=tell)
    if as_json:
        result = {"slot": sent.slot, "title": sent.title, "sha256": sent.sha256}
        print_json(result | {"bytes": len(compiled.data), "bytes_moved": sent.moved_bytes})
        return
    already = "" if sent.moved_bytes else " already"
    click.echo(
        f"{sent.title} is in slot {sent.slot}{already}: {len(compiled.data)} bytes, hash {sent.sha256[:8]}"
    )
    hint("At the controller: short presses turn the titles, a long press arms the one shown.")
