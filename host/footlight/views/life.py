"""What is known of a sheet beside its runs, as lines of text; nothing for what is not known."""

import math
from collections.abc import Iterator

from footlight.cli.camera_lines import lines as camera_lines
from footlight.notebook.sheets.life import Life, Read, StoodIn
from footlight.quantities.age import format_age_h
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
    yield from (_reading(one) for one in life.readings)
    yield from (
        f"picture {number}: {one.name}, {math.ceil(one.bytes / 1024)} KiB"
        for number, one in enumerate(life.pictures, 1)
    )
    yield from (f"{remark.kind}: {remark.text}" for remark in life.written)


def _bath(bath: StoodIn) -> str:
    found = [f"{bath.name} {format_age_h(bath.age_s / 3600)} old"]
    if "temperature" in bath.findings:
        found.append(f"{bath.findings['temperature']:g} °C")
    if "clearing" in bath.findings:
        found.append(f"clears in {bath.findings['clearing']:g} s")
    return ", ".join(found)


def _reading(one: Read) -> str:
    values = [
        f"Dmax {one.d_max:.2f} D" if one.d_max is not None else "",
        f"veil {one.veil_d:.3f} D" if one.veil_d is not None else "",
        f"mottle {one.mottle_d:.3f} D" if one.mottle_d is not None else "",
        f"advised {one.dose_s:.2f} s" if one.dose_s is not None else "",
        f"with '{one.setup}'" if one.setup else "",
        f"from {one.scan}" if one.scan else "",
    ]
    kind = {"eye": "strip, by eye", "strip": "strip", "pre-flash": "pre-flash strip"}.get(one.kind, one.kind)
    told = ", ".join(value for value in values if value)
    return f"reading {one.id}, {kind}, {date_text(one.read_unix_s)}" + (f": {told}" if told else "")
