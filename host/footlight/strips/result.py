"""What reading a strip gives: plain values, versioned, written as JSON and kept in the notebook.

Doses are stops from the present dose. A bound beyond the strip is null, with `beyond` saying on which side.
"""

from typing import Literal

import msgspec

VERSION = 1
Verdict = Literal["advice", "no safe dose", "not seen", "white not seen"]


class Interval(msgspec.Struct, frozen=True):
    """A dose [stops] with its 90 % interval [stops]; null: beyond the strip's end named in `beyond`."""

    stops: float | None
    low: float | None
    high: float | None
    by: str
    beyond: Literal["", "below", "above"] = ""


class Step(msgspec.Struct, frozen=True):
    """One cell. dose_stops: from the present dose, null for the zero step. Densities, mottle in D."""

    band: str
    step: int
    dose_s: float | None
    dose_stops: float | None
    density_d: float
    spread_d: float
    uncertainty_d: float
    graininess_d: float
    mottle_d: float
    excess_mottle_d: float
    coarse_d: float | None
    tiles: int
    plain_share: float
    drops: int
    clipped_share: float
    channels_d: tuple[float, ...] = ()


class Advice(msgspec.Struct, frozen=True):
    """What to do. stops, seconds: the dose, null where there is none. words: a sentence each."""

    verdict: Verdict
    stops: float | None
    seconds: float | None
    margin_stops: float
    words: tuple[str, ...]
    causes: tuple[str, ...]
    next_centre_stops: float | None = None
    next_step_stops: float | None = None
    next_steps: int | None = None


class Found(msgspec.Struct, frozen=True):
    """Where the strip lies in the scan. Corners and edges in mm; skew in degrees."""

    corners_mm: tuple[tuple[float, float], ...]
    step_edges_mm: tuple[float, ...]
    steps_seen: tuple[bool, ...]
    band_edges_mm: tuple[float, ...]
    bands: tuple[str, ...]
    skew_deg: float


class Taken(msgspec.Struct, frozen=True):
    """What was taken from the notebook, not typed. least_s, most_s: light of every step, zero first [s].

    place: height and stop of the strip's lights. said: what came from where; run_words: how the sheet went.
    """

    sheet: int
    run: int
    first_step: int
    setup: str
    place: str
    least_s: tuple[float, ...]
    most_s: tuple[float, ...]
    said: tuple[str, ...] = ()
    run_words: tuple[str, ...] = ()


class Reading(msgspec.Struct, frozen=True):
    """A strip, read."""

    version: int
    scan: str
    ppi: float
    bits: int
    calibration: str
    present_s: float
    found: Found
    steps: tuple[Step, ...]
    full: Interval
    clean: Interval
    plateau_d: float | None
    drop_d: float
    curve: tuple[float, float, float] | None
    base_d: float
    limits_d: tuple[float, float, float]
    advice: Advice
    notes: tuple[str, ...]
    taken: Taken | None = None
    form: str = "hits"

    @property
    def bands(self) -> tuple[str, ...]:
        """The bands that were measured, in order; one that lies across a picture may have been left out."""
        return tuple(dict.fromkeys(step.band for step in self.steps))

    def band(self, name: str) -> list[Step]:
        """The cells of one band, in order."""
        return [step for step in self.steps if step.band == name]


def to_json(reading: Reading) -> str:
    """As text that `from_json` reads back."""
    return msgspec.json.format(msgspec.json.encode(reading).decode(), indent=2)


def from_json(text: str, name: str) -> Reading:
    """A reading that was written; raises InputError for anything else."""
    from footlight.errors import InputError, field

    try:
        reading = msgspec.json.decode(text, type=Reading)
    except (msgspec.MsgspecError, UnicodeError) as error:
        raise InputError(
            f"{name}: no reading of a strip ({error}); write one with {field('as_json')}"
        ) from error
    if reading.version != VERSION:
        raise InputError(
            f"{name}: a reading of version {reading.version}; this one knows {VERSION}; read it anew"
        )
    return reading
