"""How sheets turned out, as the printer wrote it."""

import json
import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass

from footlight.notebook.acts import standing


@dataclass(frozen=True)
class Verdict:
    """verdict: the last one, None where none was written. defects: by name."""

    verdict: str | None
    defects: frozenset[str]


def of_sheets(connection: sqlite3.Connection, sheet_ids: Iterable[int]) -> dict[int, Verdict]:
    """Of those of these sheets that something was written about."""
    rows = connection.execute(
        f"SELECT remarks.sheet_id, remarks.kind, remarks.text FROM remarks {standing('remarks')}"
        " WHERE remarks.kind != 'note' AND remarks.sheet_id IN (SELECT value FROM json_each(?))"
        " ORDER BY remarks.id",
        (json.dumps(sorted(set(sheet_ids))),),
    ).fetchall()
    verdicts = {row["sheet_id"]: row["text"] for row in rows if row["kind"] == "verdict"}
    defects: dict[int, set[str]] = {}
    for row in rows:
        found = defects.setdefault(row["sheet_id"], set())
        if row["kind"] == "defect":
            found.add(row["text"])
    return {
        sheet_id: Verdict(verdicts.get(sheet_id), frozenset(found)) for sheet_id, found in defects.items()
    }
