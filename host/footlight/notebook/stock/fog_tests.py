"""How long paper may lie under the safelight, as fog tests found it."""

import sqlite3
from dataclasses import dataclass

from footlight.notebook.acts import act, standing


@dataclass(frozen=True)
class FogTest:
    """stage: 'before' the first developer, or 'after-bleach'. safe_s: the longest time without a change [s];
    fogged_s: the shortest with one [s], None if none was found."""

    stage: str
    safe_s: float
    fogged_s: float | None


def keep(connection: sqlite3.Connection, test: FogTest, now_s: int) -> None:
    """Write what a test found; of a stage the last holds."""
    with act(connection, f"fog test {test.stage}: safe for {test.safe_s:g} s", now_s) as act_id:
        connection.execute(
            "INSERT INTO fog_tests (act_id, stage, safe_s, fogged_s) VALUES (?, ?, ?, ?)",
            (act_id, test.stage, test.safe_s, test.fogged_s),
        )


def kept(connection: sqlite3.Connection) -> dict[str, FogTest]:
    """The last test of each stage."""
    rows = connection.execute(
        f"SELECT stage, safe_s, fogged_s FROM fog_tests {standing('fog_tests')} ORDER BY fog_tests.id"
    )
    return {row["stage"]: FogTest(row["stage"], row["safe_s"], row["fogged_s"]) for row in rows}
