"""Bellows: what a lens racked out beyond infinity costs, and the true f-number of an opening.

For a thin lens at magnification m the f-number that counts is N·(1 + m/P), P the pupil ratio (exit over
entrance pupil; 1 for near-symmetrical lenses); the time grows with its square. With P = 1 it is simply
the distance lens to film over the diameter of the opening. Sources: optics texts, from memory; the factor
for P = 1 also in US Army correspondence course SS0512.
"""

import math
from dataclasses import dataclass

from footlight.camera.tolerances import Tolerances
from footlight.errors import InputError, field
from footlight.light.uncertainty import LN2, Term
from footlight.quantities import FStop

PUPIL_RATIO_RANGE = (0.2, 5.0)
_MOST_MAGNIFICATION = 20.0


@dataclass(frozen=True)
class Extension:
    """How far a lens is racked out: magnification m (image over object) and pupil ratio, with its doubt."""

    magnification: float
    pupil_ratio: float = 1.0
    said: str = "infinity"
    doubt: Term | None = None

    @property
    def opening_factor(self) -> float:
        """By how much the f-number grows: 1 + m/P."""
        return 1 + self.magnification / self.pupil_ratio

    @property
    def factor(self) -> float:
        """The bellows factor on the time: (1 + m/P)²."""
        return self.opening_factor**2

    @property
    def stops(self) -> float:
        """The same [stops]."""
        return math.log2(self.factor)

    def true_stop(self, stop: FStop) -> FStop:
        """The f-number that a marked or measured stop becomes."""
        return FStop.of_number(stop.exact_value * self.opening_factor)


INFINITY = Extension(0.0)


def racked(
    focal_mm: float | None,
    draw_mm: float | None,
    image_mm: float | None,
    object_mm: float | None,
    pupil_ratio: float = 1.0,
    off_mm: float | None = None,
) -> Extension:
    """From draw and focal length [mm], or from image and object size [mm]; at infinity where neither is said.

    pupil_ratio, off_mm: as of `from_draw`. Raises `InputError` for both, and for half of either.
    """
    draw, image, of = field("draw"), field("image"), field("object")
    if draw_mm and (image_mm or object_mm):
        raise InputError(f"{draw}, {image}: give the draw, or image and object size, not both")
    if draw_mm:
        if focal_mm is None:
            lens = field("lens")
            raise InputError(
                f"{lens} is missing: a draw says nothing without the focal length, '{lens} 150 mm'"
            )
        return from_draw(focal_mm, draw_mm, pupil_ratio, off_mm)
    if image_mm and object_mm:
        return from_sizes(image_mm, object_mm, pupil_ratio)
    if image_mm or object_mm:
        raise InputError(f"{image}, {of}: both are needed, for example {image} '80 mm' {of} '120 mm'")
    return INFINITY


def from_draw(
    focal_mm: float, draw_mm: float, pupil_ratio: float = 1.0, off_mm: float | None = None
) -> Extension:
    """From focal length [mm] and draw [mm], rear nodal point (about the lens board) to film: m = v/f - 1.

    off_mm: how well the draw is known [mm]; the default is `Tolerances.draw_mm`. Raises `InputError` for
    a draw shorter than the focal length by more than that, and for absurd ratios.
    """
    _lengths(focal_mm, draw_mm)
    off = Tolerances().draw_mm if off_mm is None else off_mm
    if draw_mm < focal_mm - 3 * off:
        raise InputError(
            f"draw: {draw_mm:g} mm is shorter than the focal length ({focal_mm:g} mm); measure from the lens"
            " board to the film (a telephoto has its own rule: give image and object size instead)"
        )
    m = max(0.0, draw_mm / focal_mm - 1)
    _check(m, pupil_ratio)
    stops = 2 * off / focal_mm / pupil_ratio / (1 + m / pupil_ratio) / LN2
    said = f"draw {draw_mm:g} mm, lens {focal_mm:g} mm"
    return Extension(m, pupil_ratio, said, Term("the draw", f"± {off:g} mm", stops))


def from_sizes(image_mm: float, object_mm: float, pupil_ratio: float = 1.0) -> Extension:
    """From the size of something on the ground glass [mm] and its own size [mm]: m = image/object.

    Raises `InputError` for sizes of zero or less and for absurd ratios.
    """
    _lengths(image_mm, object_mm, ("image", "object"))
    m = image_mm / object_mm
    _check(m, pupil_ratio)
    share = Tolerances().size_share
    stops = 2 * m / pupil_ratio * share / (1 + m / pupil_ratio) / LN2
    said = f"image {image_mm:g} mm of {object_mm:g} mm"
    return Extension(m, pupil_ratio, said, Term("image and object size", f"± {100 * share:g} %", stops))


@dataclass(frozen=True)
class Opening:
    """A measured opening: f-number at infinity, the one that counts, and how well it is known [stops]."""

    at_infinity: FStop
    true: FStop
    extension: Extension
    diameter_doubt: Term


def opening(
    extension: Extension, focal_mm: float, diameter_mm: float, off_mm: float | None = None
) -> Opening:
    """The true f-number of an opening `diameter_mm` [mm] wide, seen through the front of the lens.

    At infinity f/D, then × (1 + m/P); with P = 1 that is draw over diameter. off_mm: how well the diameter
    is known [mm]. Raises `InputError` for zero or less, and outside f/0.5 to f/1024.
    """
    _lengths(focal_mm, diameter_mm, ("focal length", "opening"))
    off = Tolerances().diameter_mm if off_mm is None else off_mm
    number = focal_mm / diameter_mm
    if not 0.5 <= number <= 1024:
        raise InputError(
            f"opening: {diameter_mm:g} mm in a lens of {focal_mm:g} mm is f/{number:.3g}; allowed is f/0.5 to"
            " f/1024: check the units"
        )
    doubt = Term("the diameter of the opening", f"± {off:g} mm", 2 * off / diameter_mm / LN2)
    marked = FStop.of_number(number)
    return Opening(marked, extension.true_stop(marked), extension, doubt)


def object_distance_mm(focal_mm: float, magnification: float) -> float:
    """Front nodal point to subject [mm], f·(1 + 1/m) of a thin lens; infinite for m = 0."""
    return focal_mm * (1 + 1 / magnification) if magnification > 0 else math.inf


def _lengths(first_mm: float, second_mm: float, names: tuple[str, str] = ("focal length", "draw")) -> None:
    for value, name in zip((first_mm, second_mm), names, strict=True):
        if not 0 < value < math.inf:
            raise InputError(f"{name}: {value:g} mm must be more than zero, for example '150 mm'")


def _check(magnification: float, pupil_ratio: float) -> None:
    if magnification > _MOST_MAGNIFICATION:
        raise InputError(
            f"magnification: {magnification:.3g} is out of range; allowed is up to {_MOST_MAGNIFICATION:g}:"
            " check the units"
        )
    if not PUPIL_RATIO_RANGE[0] <= pupil_ratio <= PUPIL_RATIO_RANGE[1]:
        raise InputError(
            f"pupil ratio: {pupil_ratio:g} is out of range; allowed is {PUPIL_RATIO_RANGE[0]:g} to"
            f" {PUPIL_RATIO_RANGE[1]:g} (the opening's diameter seen from behind over that from the front)"
        )
