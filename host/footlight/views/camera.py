"""A camera exposure as lines of text: what is known, and nothing else."""

from collections.abc import Iterator

from footlight.notebook.sheets.camera_exposures import CameraExposure
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
    if exposure.times_text:
        yield exposure.times_text
    yield from (f"  {line}" for line in exposure.arithmetic.splitlines())
