"""The planned time of a sheet in the camera, with its arithmetic, from what was written at the prompt."""

import sqlite3
from dataclasses import dataclass
from pathlib import Path

from footlight import quantities as q
from footlight.camera.exposure import time_for
from footlight.camera.lens import USUAL_STOPS, Lens
from footlight.camera.settings import Settings
from footlight.camera.subject import Condition
from footlight.cli.camera import written
from footlight.cli.camera.time import film, stated
from footlight.notebook.errors import NotebookError
from footlight.notebook.stock import lenses
from footlight.quantities import FStop


@dataclass(frozen=True)
class Metered:
    """What a planned time is reckoned from, as written; '' or None where it was not.

    lens: a name in the notebook or the camera file, or a focal length. settings: the camera file.
    """

    reading: str
    stop: str
    index: float
    lens: str = ""
    draw: str | None = None
    image: str | None = None
    subject: str | None = None
    light: str = ""
    filter: str = ""
    p: str | None = None
    settings: Settings | None = None


def planned(connection: sqlite3.Connection, metered: Metered) -> tuple[float, str]:
    """The time [s] and how it came about, a line each. Raises InputError."""
    lens = lens_of(connection, metered.lens, metered.settings)
    marked = q.parse_stop(metered.stop, "--stop")
    stop = lens.at_infinity(marked) if lens else marked
    extension = written.extension(
        f"{lens.focal_mm} mm" if lens else None,
        metered.draw,
        metered.image,
        metered.subject,
        f"{lens.pupil_ratio}" if lens else "1",
    )
    found = time_for(
        written.reading(metered.reading),
        stop,
        film(f"{metered.index}", "1 s", metered.p, "0.02", None),
        extension=extension,
        conditions=_conditions(metered),
    )
    measured = [f"'{metered.lens}': {marked} is really f/{stop.exact_value:.3g}"] if stop != marked else []
    return found.seconds, "\n".join([*measured, *found.steps, f"{found.budget}", *found.notes])


def lens_of(connection: sqlite3.Connection, name: str, settings: Settings | None) -> Lens | None:
    """A lens by its name, in the notebook or else the camera file, or by its focal length; None without any.

    Raises NotebookError for a name that nothing knows.
    """
    kept = lenses.look(connection, name) if name else None
    if kept:
        return as_lens(kept)
    if settings and name in settings.lenses:
        return settings.lens(name)
    if not name:
        return None
    if name[0].isdigit():
        return Lens(name, q.parse_length_mm(name, "--lens"), _marks(USUAL_STOPS))
    known = ", ".join(one.name for one in lenses.every(connection)) or "none yet"
    raise NotebookError(
        f"--lens: '{name}' is not among your lenses ({known}); 'footlight lens add' writes it down, or give "
        "a focal length, '150 mm'"
    )


def as_lens(kept: lenses.Lens, stops: tuple[str, ...] = USUAL_STOPS) -> Lens:
    """A lens of the notebook as the mathematics knows one."""
    true = lenses.read_true_stops(kept.true_stops, f"lens '{kept.name}'")
    marks = dict.fromkeys([*_marks(stops), *(mark for mark, _ in true)])
    return Lens(
        name=kept.name,
        focal_mm=kept.focal_mm,
        stops=tuple(sorted(marks, key=lambda mark: mark.exact_value)),
        measured_mm=tuple((mark, kept.focal_mm / number) for mark, number in true),
    )


def camera_file(path: Path | None) -> Settings | None:
    """The printer's camera file, if one is named."""
    return written.settings(path) if path else None


def _conditions(metered: Metered) -> tuple[Condition, ...]:
    """Light and filter that have an effect, from the camera file or behind a comma. Others are words."""
    found = []
    for kind, text in (("light", metered.light), ("filter", metered.filter)):
        named = getattr(metered.settings, f"{kind}s", {}).get(text)
        if named or "," in text:
            found.append(named or stated(kind, text))
    return tuple(found)


def _marks(stops: tuple[str, ...]) -> tuple[FStop, ...]:
    return tuple(q.parse_stop(stop, "stop") for stop in stops)
