"""The planned time of a sheet in the camera, with its arithmetic, from a meter reading."""

import sqlite3
from dataclasses import dataclass

from footlight import quantities as q
from footlight.camera.exposure import Film, time_for
from footlight.camera.extension import racked
from footlight.camera.lens import USUAL_STOPS, Lens
from footlight.camera.meter import Scene
from footlight.camera.settings import Settings
from footlight.camera.subject import Condition
from footlight.errors import act, field
from footlight.light.setup import Departure
from footlight.notebook.errors import NotebookError
from footlight.notebook.stock import lenses
from footlight.quantities import FStop
from footlight.written.camera import condition

_OFF_P = 0.02  # how well a measured exponent of long exposures is known, where nobody says


@dataclass(frozen=True)
class Metered:
    """What a planned time is reckoned from; '' or None where it is not said.

    lens: a name in the notebook or the camera file, or a focal length as written. draw_mm, image_mm,
    object_mm: how far it is racked out [mm]. light, filter: names in the camera file, or with their effect
    behind a comma; others are words. p: measured exponent of long exposures.
    """

    reading: Scene
    stop: FStop
    index: float
    lens: str = ""
    draw_mm: float | None = None
    image_mm: float | None = None
    object_mm: float | None = None
    light: str = ""
    filter: str = ""
    p: float | None = None
    settings: Settings | None = None


def plan_camera(connection: sqlite3.Connection, metered: Metered) -> tuple[float, str]:
    """The time [s] and how it came about, a line each. Raises InputError, and NotebookError for a lens that
    nothing knows."""
    lens = lens_of(connection, metered.lens, metered.settings)
    stop = lens.at_infinity(metered.stop) if lens else metered.stop
    exposure = time_for(
        metered.reading,
        stop,
        Film(metered.index, departure=Departure(metered.p, _OFF_P) if metered.p is not None else None),
        extension=racked(
            lens.focal_mm if lens else None,
            metered.draw_mm,
            metered.image_mm,
            metered.object_mm,
            lens.pupil_ratio if lens else 1.0,
        ),
        conditions=_conditions(metered),
    )
    lines = [*exposure.steps, f"{exposure.budget}", *exposure.notes]
    if stop != metered.stop:
        lines.insert(0, f"'{metered.lens}': {metered.stop} is really f/{stop.exact_value:.3g}")
    return exposure.seconds, "\n".join(lines)


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
        return Lens(name, q.parse_length_mm(name, field("lens")), _marks(USUAL_STOPS))
    known = ", ".join(lens.name for lens in lenses.every(connection)) or "none yet"
    raise NotebookError(
        f"{field('lens')}: '{name}' is not among your lenses ({known}); {act('lens add')} writes it down, or"
        " give a focal length, '150 mm'"
    )


def as_lens(kept: lenses.Lens, stops: tuple[FStop, ...] = ()) -> Lens:
    """A lens of the notebook as the mathematics knows one. stops: its marks; without any the usual ones."""
    true = lenses.read_true_stops(kept.true_stops, f"lens '{kept.name}'")
    marks = dict.fromkeys([*(stops or _marks(USUAL_STOPS)), *(mark for mark, _ in true)])
    return Lens(
        name=kept.name,
        focal_mm=kept.focal_mm,
        stops=tuple(sorted(marks, key=lambda mark: mark.exact_value)),
        measured_mm=tuple((mark, kept.focal_mm / number) for mark, number in true),
    )


def _conditions(metered: Metered) -> tuple[Condition, ...]:
    """Light and filter that have an effect, from the camera file or behind a comma. Others are words."""
    settings = metered.settings or Settings()
    conditions = []
    for kind, text, named in (
        ("light", metered.light, settings.lights),
        ("filter", metered.filter, settings.filters),
    ):
        if text in named:
            conditions.append(named[text])
        elif "," in text:
            conditions.append(condition(kind, text, field(kind)))
    return tuple(conditions)


def _marks(stops: tuple[str, ...]) -> tuple[FStop, ...]:
    return tuple(q.parse_stop(stop, "stop") for stop in stops)
