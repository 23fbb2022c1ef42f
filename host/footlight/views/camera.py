"""A camera exposure as lines of text: what is known, and nothing else."""

import math
from collections.abc import Iterator

from footlight.notebook.sheets.camera_exposures import CameraExposure
from footlight.quantities.duration import format_seconds
from footlight.views.times import date_text


def lines(exposure: CameraExposure) -> Iterator[str]:
    """What it was of, with what, how long, and how that came about."""
    of = [exposure.subject, exposure.light, f"filter {exposure.filter}" if exposure.filter else ""]
    at = date_text(exposure.at_unix_s) if exposure.at_unix_s else ""
    if any(of) or at:
        yield "; ".join(part for part in (*of, at) if part)
    used = [
        f"holder {exposure.holder}" if exposure.holder else "",
        exposure.lens,
        exposure.stop,
        f"EI {exposure.exposure_index:g}" if exposure.exposure_index else "",
    ]
    if any(used):
        yield ", ".join(part for part in used if part)
    yield from times(exposure)
    yield from (f"  {line}" for line in exposure.arithmetic.splitlines())


def times(exposure: CameraExposure) -> Iterator[str]:
    """Planned against given, in a line; nothing when neither is known."""
    planned_s, given_s = exposure.planned_s, exposure.given_s
    if planned_s is None and given_s is None:
        return
    planned = f"planned {format_seconds(planned_s)}" if planned_s else "not planned"
    if given_s is None:
        yield f"{planned}, not yet written what was given"
        return
    stops = math.log2(given_s / planned_s) if planned_s else 0.0
    off = f": {'+' if stops > 0 else '−'}{abs(stops):.2f} stop" if abs(stops) >= 0.005 else ""
    yield f"{planned}, given {format_seconds(given_s)}{off}"
