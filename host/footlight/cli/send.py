"""`footlight send`: put a sequence on the controller."""

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
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
@click.option(
    "--in-place", is_flag=True, help="Also in place of another sequence, or another size, of the same title."
)
@port_option
@notebook_option
@json_option
def command(
    file: Path, slot: int | None, in_place: bool, port: str | None, book: Path, as_json: bool
) -> None:
    """Check FILE, compile it and send it to a slot of the controller.

    What was cut off goes on from where it stopped when the same command is given again; until the whole
    has arrived and was checked, the slot holds what it held before. The notebook keeps what was sent.

    \b
    Example:
      footlight send reversal-print.toml
      footlight send reversal-print.toml --slot 2
    """
    from footlight.actions.plan_sequence import plan_sequence
    from footlight.actions.send_sequence import send_sequence
    from footlight.views.controller import delivery_line

    now_s = int(time.time())
    plan = plan_sequence(file, book, now_s)
    for note in plan.notes:
        click.echo(f"note: {note}", err=True)
    compiled = plan.compiled
    with _bar(shows_progress(as_json)) as tell:
        delivery = send_sequence(
            compiled, book, now_s, port=port, slot=slot, in_place=in_place, progress=tell
        )
    if as_json:
        result = {"slot": delivery.slot, "title": delivery.title, "sha256": delivery.sha256}
        print_json(result | {"bytes": len(compiled.data), "bytes_moved": delivery.moved_bytes})
        return
    click.echo(delivery_line(delivery, len(compiled.data)))
    hint("At the controller: short presses turn the titles, a long press arms the one shown.")


@contextmanager
def _bar(shown: bool) -> Iterator[Callable[[int, int], None]]:
    """A bar for a person at a terminal; nothing where output is piped."""
    if not shown:
        yield lambda sent, total: None
        return
    from footlight.cli.terminal import free

    with free(sys.stderr), click.progressbar(length=1, label="sending", file=sys.stderr) as bar:

        def tell(sent: int, total: int) -> None:
            bar.length = total
            bar.update(sent - bar.pos)

        yield tell
