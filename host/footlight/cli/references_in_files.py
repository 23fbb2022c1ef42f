"""What an act wrote into light-setups files, taken back with it and written again with it.

Most acts wrote none, and need nothing loaded for it.
"""

import sqlite3

from footlight.notebook import light_setups


def put_back(connection: sqlite3.Connection, act_id: int) -> list[str]:
    """The references of before, where the files still say the act's own -> a line each."""
    return _turned(light_setups.of_act(connection, act_id))


def write_again(connection: sqlite3.Connection, act_id: int) -> list[str]:
    """The act's own references, where the files still say those of before -> a line each."""
    return _turned([one.reversed() for one in light_setups.of_act(connection, act_id)])


def _turned(changes: list[light_setups.Change]) -> list[str]:
    if not changes:
        return []
    from footlight.cli import accepting

    return accepting.put_back(changes)
