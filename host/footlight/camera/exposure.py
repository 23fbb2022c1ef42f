"""The time for a view camera, with its arithmetic and its doubt.

t = N²·(1 + m/P)² · 100 / (EI · 2^EV100) · 2^(light and filter), then departure from reciprocity.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from footlight.camera.extension import INFINITY, Extension
from footlight.camera.meter import Scene, check_index
from footlight.camera.subject import Condition, Contrast, contrast
from footlight.camera.tolerances import Tolerances
from footlight.errors import InputError
from footlight.light.departure import corrected_s, exponent
from footlight.light.doubts import long_exposure
from footlight.light.setup import Departure
from footlight.light.tolerances import Tolerances as LightTolerances
from footlight.light.uncertainty import Budget, Term
from footlight.quantities import FStop, format_seconds, format_stop, format_stops

_STANDARD = Tolerances()
_LIGHT = LightTolerances()
_SHORTEST_S, _LONGEST_S = 0.001, 100 * 3600.0


@dataclass(frozen=True)
class Film:
    """The paper in the holder. index: exposure index, found at times near `found_at_s` [s].

    departure: measured long-exposure behaviour, None where it is not. iso_range: R under the light of the
    index, None where it is not known.
    """

    index: float
    found_at_s: float = 1.0
    departure: Departure | None = None
    iso_range: float | None = None

    def __post_init__(self) -> None:
        check_index(self.index)
        if not 0 < self.found_at_s < math.inf:
            raise InputError(
                f"time of the index: {self.found_at_s:g} s must be more than zero, for example '1 s'"
            )

    @property
    def p(self) -> float:
        """The exponent to correct with: measured, or the one that is assumed."""
        return exponent(self.departure)


class Times(NamedTuple):
    """At infinity in the light of the index; with bellows, light and filter; with departure [s]."""

    plain_s: float
    metered_s: float
    corrected_s: float


@dataclass(frozen=True)
class Exposure:
    """A camera exposure. metered_s: by the law of the meter [s]; seconds: with long-exposure correction [s].

    steps: the arithmetic, a line each. contrast: what the paper holds, where its range is known.
    """

    seconds: float
    metered_s: float
    stop: FStop
    steps: tuple[str, ...]
    budget: Budget
    contrast: Contrast | None
    notes: tuple[str, ...]

    @property
    def summary(self) -> str:
        """`3.5 s at f/22, ± 0.27 stop, from the meter reading (…) and the exposure index (…)`."""
        return f"{format_seconds(self.seconds)} at {format_stop(self.stop)}, {self.budget}"

    def as_dict(self) -> dict[str, object]:
        """For `--json`; units are in the keys."""
        return {
            "seconds": round(self.seconds, 5),
            "metered_s": round(self.metered_s, 5),
            "stop": str(self.stop),
            "steps": list(self.steps),
            "uncertainty": self.budget.as_dict(),
            "paper_range_r": round(self.contrast.iso_range, 2) if self.contrast else None,
            "paper_range_stops": round(self.contrast.stops, 3) if self.contrast else None,
            "summary": self.summary,
            "notes": list(self.notes),
        }


def time_for(
    scene: Scene,
    stop: FStop,
    film: Film,
    *,
    extension: Extension = INFINITY,
    conditions: tuple[Condition, ...] = (),
    tolerances: Tolerances = _STANDARD,
) -> Exposure:
    """The time for a scene at a stop.

    stop: marked or measured at infinity; the bellows come in through `extension`. conditions: subject
    light and filter. Long exposures: beyond the time at which the index was found, the paper's measured
    exponent, or 0.9 ± 0.1 where it is not measured. Raises `InputError` for a
    time outside 1 ms to 100 h.
    """
    times = _times(scene, stop, film, extension, conditions)
    long_stops = max(0.0, math.log2(times.metered_s / film.found_at_s))
    terms = _terms(extension, conditions, tolerances, long_stops, film)
    return Exposure(
        seconds=times.corrected_s,
        metered_s=times.metered_s,
        stop=stop,
        steps=tuple(_steps(scene, stop, film, times, extension, conditions)),
        budget=Budget(tuple(terms)),
        contrast=contrast(film.iso_range, conditions) if film.iso_range is not None else None,
        notes=_notes(conditions, film),
    )


def _times(
    scene: Scene, stop: FStop, film: Film, extension: Extension, conditions: tuple[Condition, ...]
) -> Times:
    plain_s = stop.exact_value**2 * 100 / (film.index * 2**scene.ev100)
    metered_s = plain_s * extension.factor * 2 ** sum(one.more_stops for one in conditions)
    if not _SHORTEST_S <= metered_s <= _LONGEST_S:
        raise InputError(
            f"time: {metered_s:.3g} s is out of range; allowed is 1 ms to 100 h: check reading and index"
        )
    return Times(plain_s, metered_s, corrected_s(metered_s, film.p, film.found_at_s))


def _terms(
    extension: Extension,
    conditions: tuple[Condition, ...],
    tolerances: Tolerances,
    long_stops: float,
    film: Film,
) -> list[Term]:
    terms = [
        Term("the meter reading", f"± {tolerances.reading_stops:.2f} stop", tolerances.reading_stops),
        Term("the exposure index", f"± {tolerances.index_stops:.2f} stop", tolerances.index_stops),
        Term("the stop", f"± {tolerances.stop_stops:.2f} stop", tolerances.stop_stops),
        *([extension.doubt] if extension.doubt else []),
        *(condition.doubt for condition in conditions),
    ]
    if not long_stops:
        return terms
    # A departing paper needs log2(t)/p: every doubt of the light grows with it.
    grown = [term._replace(stops=term.stops / film.p) for term in terms]
    return [*grown, long_exposure(long_stops, film.departure, _LIGHT)]


def _steps(
    scene: Scene,
    stop: FStop,
    film: Film,
    times: Times,
    extension: Extension,
    conditions: tuple[Condition, ...],
) -> Iterator[str]:
    yield f"{scene}, EI {film.index:g}, {format_stop(stop)}: {format_seconds(times.plain_s)}"
    if extension.factor != 1:
        true = extension.true_stop(stop).exact_value
        grown = f"× {extension.factor:.4g} ({format_stops(extension.stops)})"
        yield f"{extension.said}: {grown}, really f/{true:.4g}"
    for one in conditions:
        yield f"{one.kind} '{one.name}': {format_stops(one.more_stops)}"
    if times.corrected_s != times.metered_s:
        how = "measured" if film.departure else "not measured"
        grown = f"{format_seconds(times.metered_s)} → {format_seconds(times.corrected_s)}"
        yield f"long exposure, from {format_seconds(film.found_at_s)} on, p = {film.p:g} ({how}): {grown}"


def _notes(conditions: tuple[Condition, ...], film: Film) -> tuple[str, ...]:
    notes = []
    stated = [one.name for one in conditions if not one.measured]
    if stated:
        names = " and ".join(f"'{name}'" for name in stated)
        notes.append(f"{names}: only stated; one strip under it would settle speed and contrast.")
    if len(conditions) > 1:
        notes.append("Light and filter together: their sum is an estimate until they are measured together.")
    if conditions and film.iso_range is None and any(one.range_r for one in conditions):
        notes.append("Contrast changes too; give the paper's ISO range R to see what it holds.")
    return tuple(notes)
