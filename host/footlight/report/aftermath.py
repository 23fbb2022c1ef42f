"""After the worst: for every fault, and every way in which a step ends, what happened to the sheet, what to
do with it, what to check. Commands take it from here; the words of faults are those of `meanings`.

Common practice, no source: that too little second exposure is hardly seen and too much ruins the sheet.
"""

from dataclasses import dataclass

from footlight import meanings
from footlight.notebook.sheets.by_number import BathRow, LightRow, RunPart
from footlight_core import records, states


@dataclass(frozen=True)
class Advice:
    """One thing that went wrong. `do`: with the sheet. `check`: before the next one; '' where nothing."""

    happened: str
    do: str
    check: str = ""

    @property
    def text(self) -> str:
        """All of it in a line."""
        return "; ".join(part for part in (self.happened, self.do, self.check) if part)


def of_fault(code: int) -> Advice:
    """What follows from a fault of the controller."""
    return Advice(*meanings.fault(code))


def of_light(row: LightRow, waits: bool = False) -> Advice | None:
    """What follows from the way in which a light ended; None when all of it was given.

    `waits`: the run is still at it, and no record tells yet what was given since the last one.
    """
    where = _where(row)
    if waits:
        return Advice(
            f"{where}: {_s(row.least_ms)} of {_s(row.planned_ms)} given by the records so far",
            "go by the controller's display: it offers what is left",
            f"should it never come on again: up to {_s(row.most_ms)} may have been given",
        )
    if row.least_ms != row.most_ms:
        ended = _DOUBTFUL.get(row.how, "cut off and gone on with")
        return Advice(
            f"{where}: {ended}, {_s(row.least_ms)} to {_s(row.most_ms)} of {_s(row.planned_ms)} given",
            _may_add(row),
            "write its bounds on the sheet",
        )
    if row.how == records.WHOLE or not _rest(row):
        return None
    given = f"{where}: {_s(row.least_ms)} of {_s(row.planned_ms)} given, {_s(_rest(row))} not"
    return Advice(given, _AFTER_LIGHT.get(row.how, _AFTER_LIGHT[None]))


_DOUBTFUL = {records.BROKEN: "cut off", None: "its end is not recorded"}
_AFTER_LIGHT = {
    records.HELD: "the rest was offered and not given: judge the sheet by its blacks",
    records.SHORT: "less than the relay can give: no more can be done",
    records.ABANDONED: "abandoned at the pedal: judge the sheet by its blacks",
    records.SKIPPED: "skipped at the pedal: the sheet lacks this light",
    records.BROKEN: "cut off: that much may still be given, if the sheet has not gone on",
    None: "its end is not known: collect its next records",
}


def of_bath(row: BathRow) -> Advice | None:
    """What follows from the way in which a bath ended; None when its time is known."""
    if row.how == records.BROKEN:
        return Advice(
            f"{_where(row)}: cut off, its time is not known",
            "count it as done if the sheet stayed in the tray, else do it again",
        )
    return None


def of_steps(part: RunPart) -> list[Advice]:
    """What the steps of one run and its end leave to do, in order."""
    steps = [
        of_light(row, _waits(part, row)) if isinstance(row, LightRow) else of_bath(row) for row in part.rows
    ]
    return [advice for advice in [*steps, _ended(part)] if advice]


def of_faults(part: RunPart) -> list[Advice]:
    """What the faults of one run leave to do; one that came several times is told once."""
    return [of_fault(code) for code in dict.fromkeys(part.faults)]


def of_run(part: RunPart) -> list[Advice]:
    """All of it."""
    return [*of_steps(part), *of_faults(part)]


def _waits(part: RunPart, row: LightRow) -> bool:
    # Without its beginning the controller has forgotten the run; in these faults no more should be given.
    is_offered = part.sha is not None and part.fault not in (states.LOST_GATE, states.WELDED_RELAY)
    return is_offered and part.ended is None and row is part.rows[-1] and row.how is None


def _ended(part: RunPart) -> Advice | None:
    if part.ended is None and part.sha is None:
        return Advice(
            "the record of this run's beginning is lost",
            "where the controller does not offer the run any more, finish the sheet by hand",
        )
    if part.ended is None and part.rows:
        return Advice(
            "the run has not ended in the journal",
            "go on with it at the controller, or leave it there; then collect its journal",
        )
    if part.ended == records.BROKEN:
        return Advice("the run was cut off and left", "the steps above are all that the sheet has had")
    return None


def _where(row: LightRow | BathRow) -> str:
    known = row.name != f"step {row.step}"  # so it is called where the sequence is not known
    return f"step {row.step}, {row.name}" if known else row.name


def _may_add(row: LightRow) -> str:
    rest_ms = _rest(row)
    if not rest_ms:
        return (
            "it may have had all of it: give no more (NONE at the controller), for weak blacks are hardly"
            " seen, too much mottles"
        )
    return (
        f"add at most {_s(rest_ms)} (MIN at the controller), in doubt nothing: weak blacks are hardly seen,"
        " too much mottles"
    )


def _rest(row: LightRow) -> int:
    return max(0, (row.planned_ms or 0) - row.most_ms)


def _s(light_ms: int | None) -> str:
    return "an unknown time" if light_ms is None else f"{light_ms / 1000:.2f} s"
