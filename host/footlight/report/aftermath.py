"""After the worst: for every fault and every way in which a step ends, what happened to the sheet, what to do
with it, what to check. The one place that says it; commands and docs/faults.md take it from here.

Common practice, no source: that too little second exposure is hardly seen and too much ruins the sheet.
"""

from dataclasses import dataclass

from footlight.meanings import fault_text
from footlight.notebook.sheets import BathRow, LightRow, RunPart
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


_GO_ON = "the sheet is as it was: acknowledge, and go on at the same step; a bath's clock has gone on"
# By the word that the display shows: (what to do with the sheet, what to check).
AFTER_FAULT: dict[str, tuple[str, str]] = {
    "STUCK": (_GO_ON, "check what stands on the pedal"),
    "WIRE": ("a light that was on has ended short: the rest is offered", "check plug and cable of the pedal"),
    "WET": ("a light that was on has ended short: the rest is offered", "dry the pedal and its plug"),
    "UNPLUG": (
        "take the sheet from the lamp in the dark: it has had more light than recorded, count it as lost",
        "unplug the lamp and change the relay before the next sheet",
    ),
    "NOLAMP": (
        "no light is counted if the lamp never burnt, and the light until then if it went out:"
        " mend, acknowledge, and what is missing is offered",
        "check lamp, fuse and relay, and that the sensor sees the lamp",
    ),
    "NOTES": (
        "write down what the display says of this sheet: a record may be missing",
        "'footlight collect' now; if it comes again, change the board",
    ),
    "ERROR": (
        "a light that was on has ended, and its time is recorded: the rest is offered",
        "tell the makers",
    ),
    "MEMORY": (_GO_ON, "switch off and on before the next sheet"),
    "GATE": (
        "the light counts as given whole, for too much ruins the sheet: give no more of it",
        "switch off and on, and try the set-up light before the next sheet",
    ),
    "FULL": (_GO_ON, "'footlight collect' makes room"),
    "FOOT": (_GO_ON, "check that no foot rests on the pedal"),
    "STRAY": (
        "a sheet that lay under the lamp has had light that is not in the record: doubt it, keep it apart",
        "find out who switched the lamp on, and whether the relay sticks",
    ),
    "LOST": (
        "what was given before may be missing here: go by what you wrote on the sheet",
        "'footlight collect' what is left, before anything else",
    ),
}


def of_fault(code: int) -> Advice:
    """What follows from a fault of the controller."""
    do, check = AFTER_FAULT.get(states.fault_word(code), ("", "update footlight on this computer"))
    return Advice(fault_text(code), do, check)


def of_light(row: LightRow) -> Advice | None:
    """What follows from the way in which a light ended; None when all of it was given."""
    where = _where(row)
    if row.least_ms != row.most_ms:
        return Advice(
            f"{where}: cut off, {_s(row.least_ms)} to {_s(row.most_ms)} of {_s(row.planned_ms)} given",
            _may_add(row),
            "write its bounds on the sheet",
        )
    if row.how == records.WHOLE or not _rest(row):
        return None
    given = f"{where}: {_s(row.least_ms)} of {_s(row.planned_ms)} given, {_s(_rest(row))} not"
    return Advice(given, _AFTER_LIGHT.get(row.how, _AFTER_LIGHT[None]))


_AFTER_LIGHT = {
    records.HELD: "the rest was offered and not given: judge the sheet by its blacks",
    records.SHORT: "less than the relay can give: no more can be done",
    records.ABANDONED: "abandoned at the pedal: judge the sheet by its blacks",
    records.SKIPPED: "skipped at the pedal: the sheet lacks this light",
    records.BROKEN: "cut off: that much may still be given, if the sheet has not gone on",
    None: "its end is not known: read the next records with 'footlight collect'",
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
    steps = [of_light(row) if isinstance(row, LightRow) else of_bath(row) for row in part.rows]
    return [advice for advice in [*steps, _ended(part)] if advice]


def of_faults(part: RunPart) -> list[Advice]:
    """What the faults of one run leave to do; one that came several times is told once."""
    return [of_fault(code) for code in dict.fromkeys(part.faults)]


def of_run(part: RunPart) -> list[Advice]:
    """All of it."""
    return [*of_steps(part), *of_faults(part)]


def _ended(part: RunPart) -> Advice | None:
    if part.ended is None and part.rows:
        return Advice(
            "the run has not ended in the journal",
            "go on with it at the controller, or leave it there; then 'footlight collect'",
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
        return "it may have had all of it: give no more, for weak blacks are hardly seen, too much mottles"
    return f"add at most {_s(rest_ms)}, in doubt nothing: weak blacks are hardly seen, too much mottles"


def _rest(row: LightRow) -> int:
    return max(0, (row.planned_ms or 0) - row.most_ms)


def _s(light_ms: int | None) -> str:
    return "an unknown time" if light_ms is None else f"{light_ms / 1000:.2f} s"
