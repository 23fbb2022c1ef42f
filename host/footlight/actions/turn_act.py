"""What `undo` and `reinstate` share: the light-setups files that an act wrote into, and how it is told."""

import sqlite3

import click

from footlight.cli.options import print_json
from footlight.notebook.acts import Act
from footlight.notebook.stock import light_setups


def put_back(connection: sqlite3.Connection, act_id: int) -> list[str]:
    """The references of before, where the files still say the act's own -> a line each."""
    return _turned(light_setups.of_act(connection, act_id))


def write_again(connection: sqlite3.Connection, act_id: int) -> list[str]:
    """The act's own references, where the files still say those of before -> a line each."""
    return _turned([one.reversed() for one in light_setups.of_act(connection, act_id)])


def _turned(changes: list[light_setups.Change]) -> list[str]:
    if not changes:
        return []
    # Only here: most acts wrote into no file, and need nothing loaded for it.
    from footlight.cli import accepting

    return accepting.put_back(changes)


def tell(what: str, act: Act, files: list[str], as_json: bool) -> None:
    """`taken back: ...`, and a line for each reference in a file."""
    if as_json:
        print_json(
            {what.replace(" ", "_"): act.said, "act": act.id, "done_unix_s": act.done_unix_s, "files": files}
        )
        return
    for line in [f"{what}: {act.said}", *files]:
        click.echo(line)
