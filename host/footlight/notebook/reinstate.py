"""What was taken back stands again: in its own place in the order, as if it had never been taken back.

What was entered since keeps its place behind it, so that of two verdicts the later one still holds.
"""

import sqlite3

from footlight import errors
from footlight.notebook import acts
from footlight.notebook.acts import Act, Also, Turn, standing
from footlight.notebook.book import transaction
from footlight.notebook.errors import NotebookError


def reinstate(
    connection: sqlite3.Connection,
    now_s: int,
    also: Also = acts.nothing_else,
    number: int | None = None,
) -> Act:
    """Let the act that was taken back last stand again, or the one of that number. Raises NotebookError when
    none was taken back, or when it no longer fits what stands.

    also: what the act did outside the notebook is done again by it, last of all before the commit. It must
    stand being called twice, as in `acts.undo`.
    """
    with transaction(connection):
        act = _taken_back_last(connection) if number is None else _taken_back(connection, number)
        _refuse_what_it_rests_on(connection, act)
        _refuse_a_second_batch(connection, act)
        _refuse_a_second_sheet(connection, act)
        acts.turn(connection, act, Turn("reinstated", now_s))
        also(act)
    return act


def _taken_back_last(connection: sqlite3.Connection) -> Act:
    row = connection.execute(
        "SELECT acts.id, said, done_unix_s FROM turns JOIN acts ON acts.id = turns.act"
        " WHERE undone_unix_s IS NOT NULL ORDER BY turns.id DESC LIMIT 1"
    ).fetchone()
    if row is None:
        raise NotebookError("nothing to reinstate: everything that was written stands")
    return Act(*row)


def _taken_back(connection: sqlite3.Connection, number: int) -> Act:
    act = acts.numbered(connection, number)
    if act.undone_unix_s is None:
        raise NotebookError(f"act {number}: stands; only what was taken back can be reinstated")
    return act


def _refuse_what_it_rests_on(connection: sqlite3.Connection, act: Act) -> None:
    """Raise NotebookError if a row of the act points at one whose own act was taken back."""
    for table, column, of in acts.links(connection):
        row = connection.execute(
            f"SELECT acts.id, acts.said FROM {table} AS mine JOIN {of} AS theirs ON theirs.id = mine.{column}"
            " JOIN acts ON acts.id = theirs.act_id WHERE mine.act_id = ? AND acts.id != mine.act_id"
            " AND acts.undone_unix_s IS NOT NULL LIMIT 1",
            (act.id,),
        ).fetchone()
        if row:
            raise NotebookError(
                f"act {act.id}: needs act {row['id']} ({row['said']}), which was taken back too; reinstate "
                f"that one first: {errors.act('reinstate {}'.format(row['id']))}"
            )


def _refuse_a_second_batch(connection: sqlite3.Connection, act: Act) -> None:
    """Raise NotebookError if another batch has its name by now."""
    row = connection.execute(
        "SELECT name FROM batches WHERE act_id = ? AND name IN"
        f" (SELECT name FROM batches {standing('batches')})",
        (act.id,),
    ).fetchone()
    if row:
        raise NotebookError(
            f"act {act.id}: there is another batch of paper '{row['name']}' by now; add this one anew under "
            f"another name: {errors.act('paper add')}"
        )


def _refuse_a_second_sheet(connection: sqlite3.Connection, act: Act) -> None:
    """Raise NotebookError if a sheet that it wrote down first has come home, or was written down, since."""
    row = connection.execute(
        "SELECT number FROM sheets AS mine WHERE act_id = ? AND EXISTS (SELECT 1 FROM sheets AS other"
        " LEFT JOIN acts ON acts.id = other.act_id WHERE acts.undone_unix_s IS NULL"
        " AND other.number = mine.number AND other.id != mine.id"
        " AND (other.id > mine.id OR other.act_id IS NOT NULL))",
        (act.id,),
    ).fetchone()
    if row:
        raise NotebookError(
            f"act {act.id}: sheet {row['number']} is in the notebook by now without it; enter it anew: "
            f"{errors.act('expose {}'.format(row['number']))}"
        )
