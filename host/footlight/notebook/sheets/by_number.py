"""What the notebook tells of a sheet: which one is meant, and its story, planned against given."""

import sqlite3
from dataclasses import dataclass, field
from typing import Any

from footlight import errors
from footlight.notebook.acts import standing
from footlight.notebook.dates import When
from footlight.notebook.errors import NotebookError
from footlight.notebook.journal import faulted, programs
from footlight_core import records
from footlight_core.program import in_tray, kind_of


@dataclass(frozen=True)
class BathRow:
    """A bath or the like: times in ms, None where not known. `most_ms`: of a step judged by eye.

    `in_tray`: did the sheet lie in a tray meanwhile? None where the program is not known.
    """

    step: int
    name: str
    kind: str
    first_number: int
    planned_ms: int | None
    most_ms: int | None
    real_ms: int | None
    how: str | None
    in_tray: bool | None = None

    @property
    def difference_ms(self) -> int | None:
        """Real less planned [ms]; for a step judged by eye how far it lies outside its limits."""
        if self.real_ms is None or self.planned_ms is None:
            return None
        if self.most_ms is None:
            return self.real_ms - self.planned_ms
        return min(0, self.real_ms - self.planned_ms) + max(0, self.real_ms - self.most_ms)


@dataclass(frozen=True)
class MeasuredPart:
    """How a part of a light was measured. dose_ms: light at the lamp's learnt level [ms]. least, mean, most:
    the level in thousandths of the learnt one, 0 if it never was steady. how: counted, or why not."""

    gate_ms: int
    dose_ms: int
    least: int
    mean: int
    most: int
    how: str


@dataclass(frozen=True)
class LightRow:
    """A light: `planned_ms` of light, the lamp's gate time, least and most light given [ms].

    `planned_from`: 'sequence' if the program is known, else 'journal' (the intent before the light).
    `parts`: gate times of its parts [ms]. `setup`: lens, stop and height as the program says. `measured`: its
    parts, where a light sensor was fitted.
    """

    step: int
    name: str
    first_number: int
    planned_ms: int | None
    planned_from: str
    gate_ms: int
    least_ms: int
    most_ms: int
    left_ms: int | None
    how: str | None
    parts: list[int]
    setup: dict[str, Any]
    measured: list[MeasuredPart] = field(default_factory=list)


@dataclass(frozen=True)
class RunPart:
    """What one run did to the sheet, in order.

    `source`, `setups`: sequence and light setups as they were sent, '' where not kept. `fault`: the code of
    one that still stands, else 0.
    """

    run: int
    title: str | None
    name: str | None
    sha: str | None
    sheets: int
    when: When
    ended: str | None
    rows: list[BathRow | LightRow]
    faults: list[int]
    arithmetic: str
    source: str = ""
    setups: str = ""
    fault: int = 0


@dataclass(frozen=True)
class Story:
    """All that was done to one sheet. `controller`, `epoch`: '' while its journal is not home."""

    sheet_id: int
    number: int
    controller: str
    epoch: str
    runs: list[RunPart] = field(default_factory=list)


# A sheet whose journal is not home yet has no epoch; one that was taken back does not count.
SHEET = (
    "SELECT sheets.id, sheets.number, sheets.epoch_id, ifnull(epochs.controller_id, '') AS controller_id,"
    " ifnull(epochs.epoch, '') AS epoch FROM sheets"
    " LEFT JOIN epochs ON epochs.id = sheets.epoch_id LEFT JOIN acts AS first ON first.id = sheets.act_id"
    " WHERE first.undone_unix_s IS NULL"
)


def numbered(connection: sqlite3.Connection, number: int, controller: str | None = None) -> list[sqlite3.Row]:
    """Every sheet of that number, the newest first."""
    return connection.execute(
        f"{SHEET} AND sheets.number = ? AND (? IS NULL OR epochs.controller_id = ?) ORDER BY sheets.id DESC",
        (number, controller, controller),
    ).fetchall()


def greatest(connection: sqlite3.Connection, controller: str) -> int:
    """The greatest number of a sheet that this controller's journals know; 0 if there is none."""
    row = connection.execute(
        "SELECT max(number) AS number FROM sheets JOIN epochs ON epochs.id = sheets.epoch_id"
        " WHERE epochs.controller_id = ?",
        (controller,),
    ).fetchone()
    return row["number"] or 0


def find(connection: sqlite3.Connection, number: int, controller: str | None = None) -> sqlite3.Row:
    """The sheet of that number. Raises NotebookError when there is none, or more than one."""
    rows = numbered(connection, number, controller)
    if not rows:
        refuse_unknown(connection, controller)
        raise NotebookError(f"sheet {number}: not in the notebook; {errors.act('sheets')} lists what is")
    if len({row["controller_id"] for row in rows} - {""}) > 1 and rows[0]["epoch_id"] is not None:
        listed = ", ".join(sorted({row["controller_id"] for row in rows} - {""}))
        raise NotebookError(
            f"sheet {number}: several controllers have one ({listed}); name one: {errors.field('controller')}"
        )
    # The same controller counts from 1 again after its memory was formatted: the newest is meant. One that
    # was written about and whose journal is not home yet is newer than all that are.
    return rows[0]


def refuse_unknown(connection: sqlite3.Connection, controller: str | None) -> None:
    """Raise NotebookError for the name of a controller that the notebook does not know."""
    known = [row["id"] for row in connection.execute("SELECT id FROM controllers ORDER BY id").fetchall()]
    if controller is not None and controller not in known:
        listed = f"known: {', '.join(known)}" if known else "none is known yet"
        raise NotebookError(
            f"{errors.field('controller')} {controller}: no such controller in the notebook; {listed}"
        )


def story(connection: sqlite3.Connection, sheet: sqlite3.Row) -> Story:
    """Everything that was done to a sheet, as `find` gave it."""
    runs = connection.execute(
        "SELECT runs.* FROM runs JOIN run_sheets ON run_sheets.run_id = runs.id WHERE run_sheets.sheet_id = ?"
        " ORDER BY runs.first_number",
        (sheet["id"],),
    ).fetchall()
    parts = [_part(connection, sheet["id"], run) for run in runs]
    return Story(sheet["id"], sheet["number"], sheet["controller_id"], sheet["epoch"], parts)


def run_of(connection: sqlite3.Connection, run_id: int) -> sqlite3.Row:
    """A run: id, run, title, ended, from_unix_s, to_unix_s."""
    return connection.execute(
        "SELECT id, run, title, ended, from_unix_s, to_unix_s FROM runs WHERE id = ?", (run_id,)
    ).fetchone()


def verdicts_of_run(connection: sqlite3.Connection, run_id: int) -> list[tuple[int, str]]:
    """(number of the sheet, verdict) for the sheets of a run that have one."""
    rows = connection.execute(
        f"SELECT sheets.number, remarks.text FROM run_sheets JOIN sheets ON sheets.id = run_sheets.sheet_id"
        f" JOIN remarks ON remarks.sheet_id = sheets.id {standing('remarks')}"
        " WHERE run_id = ? AND remarks.kind = 'verdict' ORDER BY remarks.id",
        (run_id,),
    ).fetchall()
    return sorted({row["number"]: row["text"] for row in rows}.items())


def records_by_boot(connection: sqlite3.Connection, story: Story, run: int) -> list[list[dict[str, Any]]]:
    """The whole records of a run in order, a list for each time that the controller was switched on."""
    rows = connection.execute(
        "SELECT line, boot FROM journal JOIN epochs ON epochs.id = journal.epoch_id"
        " WHERE epochs.controller_id = ? AND epochs.epoch = ? AND run = ? AND whole = 1 ORDER BY number",
        (story.controller, story.epoch, run),
    ).fetchall()
    boots: dict[int, list[dict[str, Any]]] = {}
    for row in rows:
        record = records.unseal(row["line"].encode())
        if record is not None:
            boots.setdefault(row["boot"], []).append(record)
    return list(boots.values())


def _part(connection: sqlite3.Connection, sheet_id: int, run: sqlite3.Row) -> RunPart:
    planned = programs.planned_steps(connection, run["sha"])
    known = connection.execute(
        "SELECT name, arithmetic, source, setups FROM programs WHERE substr(sha256, 1, 16) = ?", (run["sha"],)
    ).fetchone()
    rows: list[BathRow | LightRow] = [*_baths(connection, sheet_id, run, planned)]
    rows += _lights(connection, sheet_id, run, planned)
    ended = faulted.end_number(connection, run["epoch_id"], run["run"])
    faults = connection.execute(
        "SELECT code FROM faults WHERE epoch_id = ? AND run = ? AND number < ifnull(?, number + 1)"
        " ORDER BY number",
        (run["epoch_id"], run["run"], ended),
    ).fetchall()
    return RunPart(
        run["run"],
        run["title"],
        known["name"] if known else None,
        run["sha"],
        run["sheets"],
        When(run["from_unix_s"], run["to_unix_s"]),
        run["ended"],
        sorted(rows, key=lambda row: row.first_number),
        [fault["code"] for fault in faults],
        known["arithmetic"] if known else "",
        known["source"] if known else "",
        known["setups"] if known else "",
        faulted.standing(connection, run["epoch_id"], run["run"]),
    )


def _baths(
    connection: sqlite3.Connection, sheet_id: int, run: sqlite3.Row, planned: list[dict[str, Any]]
) -> list[BathRow]:
    rows = connection.execute(
        "SELECT * FROM steps WHERE run_id = ? AND sheet_id = ?", (run["id"], sheet_id)
    ).fetchall()
    return [_bath(row, _step(planned, row["step"])) for row in rows]


def _bath(row: sqlite3.Row, step: dict[str, Any]) -> BathRow:
    judged = kind_of(step).is_judged()
    return BathRow(
        row["step"],
        step.get("name", f"step {row['step']}"),
        step.get("kind", ""),
        row["first_number"],
        step.get("least_ms") if judged else step.get("time_ms"),
        step.get("most_ms") if judged else None,
        row["real_ms"],
        row["how"],
        in_tray(step) if step else None,
    )


def _lights(
    connection: sqlite3.Connection, sheet_id: int, run: sqlite3.Row, planned: list[dict[str, Any]]
) -> list[LightRow]:
    rows = connection.execute(
        "SELECT * FROM lights WHERE run_id = ? AND sheet_id = ?", (run["id"], sheet_id)
    ).fetchall()
    return [_light(connection, row, _step(planned, row["step"])) for row in rows]


def _light(connection: sqlite3.Connection, row: sqlite3.Row, step: dict[str, Any]) -> LightRow:
    parts = connection.execute(
        "SELECT gate_ms FROM exposures WHERE light_id = ? ORDER BY number", (row["id"],)
    ).fetchall()
    measured = connection.execute(
        "SELECT gate_ms, dose_ms, least, mean, most, how FROM doses WHERE light_id = ? ORDER BY number",
        (row["id"],),
    ).fetchall()
    return LightRow(
        row["step"],
        step.get("name", f"step {row['step']}"),
        row["first_number"],
        step.get("time_ms", row["planned_ms"]),
        "sequence" if step else "journal",
        row["gate_ms"],
        row["least_ms"],
        row["most_ms"],
        row["left_ms"],
        row["how"],
        [part["gate_ms"] for part in parts],
        {key: step[key] for key in ("lens", "stop", "height_mm", "dead_ms") if step.get(key)},
        [MeasuredPart(**dict(part)) for part in measured],
    )


def _step(planned: list[dict[str, Any]], number: int) -> dict[str, Any]:
    return planned[number - 1] if 0 < number <= len(planned) else {}
