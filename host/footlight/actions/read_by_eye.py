"""Judge a wet strip by three answers under white light, the same evening."""

import json
import math
from dataclasses import dataclass
from typing import Any

from footlight.actions import keep_reading
from footlight.actions.keep_reading import Keeping
from footlight.actions.take_strip_doses import StripDoses
from footlight.quantities import format_seconds
from footlight.strips.judge import by_eye
from footlight.strips.judge.by_eye import Answers


@dataclass(frozen=True)
class EyeReading:
    """A strip, judged by eye. result: plain values, as they are kept. kept: its number, None for none."""

    result: dict[str, Any]
    doses: StripDoses
    kept: int | None = None


def read_by_eye(
    answers: Answers,
    doses: StripDoses,
    repeatability_stops: float | None = None,
    keeping: Keeping | None = None,
) -> EyeReading:
    """Judge, and keep where that is wanted. repeatability_stops: measured from strip to strip [stops].

    Raises InputError for answers that the strip has not.
    """
    stops = [math.log2(total / doses.present_s) for total in doses.totals_s[1:-1]]
    decision, full, clean = by_eye.read(answers, stops, repeatability_stops)
    result = by_eye.as_dict(decision, full, clean, doses.present_s) | _judged(answers, doses)
    return EyeReading(result, doses, _keep(result, doses, keeping) if keeping else None)


def _judged(answers: Answers, doses: StripDoses) -> dict[str, Any]:
    """What was answered, and what was taken from the notebook."""
    import msgspec

    return {
        "first_full": answers.first_full,
        "last_clean": answers.last_clean,
        "clean_anchor": answers.clean_anchor,
        "present_s": doses.present_s,
        "totals_s": doses.totals_s,
        "taken": msgspec.to_builtins(doses.taken) if doses.taken else None,
    }


def _keep(result: dict[str, Any], doses: StripDoses, keeping: Keeping) -> int:
    dose_s = result["dose_s"]
    entry = keep_reading.strip_entry("eye", json.dumps(result, ensure_ascii=False), doses, dose_s)
    dose = "no safe dose" if dose_s is None else f"give {format_seconds(dose_s)}"
    return keep_reading.keep(keeping, entry, f"strip read by eye{keeping.of_sheet}: {dose}")
