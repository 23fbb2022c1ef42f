"""What is known of a sheet beside its runs, as lines of text; nothing for what is not known."""

import math
from collections.abc import Iterator

from footlight.notebook.sheets.life import Life, Read, StoodIn
from footlight.quantities.age import format_age_h
from footlight.views.camera import lines as camera_lines
from footlight.views.times import date_text


def before(life: Life) -> Iterator[str]:
    """What comes before the runs: paper and camera."""
    if life.paper:
        speed = f", index {life.paper.speed:g}" if life.paper.speed else ""
        yield f"paper {life.paper.name}: {life.paper.paper}, {life.paper.size}{speed}"
    if life.camera:
        yield "in the camera"
        yield from (f"  {line}" for line in camera_lines(life.camera))


def baths_of(life: Life, run: int) -> Iterator[str]:
    """The baths that stood in their trays at a run."""
    stood = [_bath(bath) for bath in life.baths if bath.run == run]
    if stood:
        yield f"  baths: {'; '.join(stood)}"


def after(life: Life) -> Iterator[str]:
    """What comes after them: readings, pictures, what was written."""
    yield from (_reading(read) for read in life.readings)
    yield from (
        f"picture {number}: {picture.name}, {math.ceil(picture.bytes / 1024)} KiB"
        for number, picture in enumerate(life.pictures, 1)
    )
    yield from (f"{remark.kind}: {remark.text}" for remark in life.written)


def _bath(bath: StoodIn) -> str:
    parts = [f"{bath.name} {format_age_h(bath.age_s / 3600)} old"]
    if "temperature" in bath.findings:
        parts.append(f"{bath.findings['temperature']:g} °C")
    if "clearing" in bath.findings:
        parts.append(f"clears in {bath.findings['clearing']:g} s")
    return ", ".join(parts)


def _reading(read: Read) -> str:
    values = [
        f"Dmax {read.d_max:.2f} D" if read.d_max is not None else "",
        f"veil {read.veil_d:.3f} D" if read.veil_d is not None else "",
        f"mottle {read.mottle_d:.3f} D" if read.mottle_d is not None else "",
        f"advised {read.dose_s:.2f} s" if read.dose_s is not None else "",
        f"with '{read.setup}'" if read.setup else "",
        f"from {read.scan}" if read.scan else "",
    ]
    kind = {"eye": "strip, by eye", "strip": "strip", "pre-flash": "pre-flash strip"}.get(
        read.kind, read.kind
    )
    told = ", ".join(value for value in values if value)
    return f"reading {read.id}, {kind}, {date_text(read.read_unix_s)}" + (f": {told}" if told else "")
