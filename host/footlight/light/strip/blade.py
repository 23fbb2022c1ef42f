"""The blade that covers part of the sheet: where to put it so that its shadow falls where it should.

A blade across the tray rims stands above the sheet, so its shadow falls further out than the blade
(parallax) and has a soft edge (penumbra). Similar triangles, with the lens pupil as source.
"""

from dataclasses import dataclass

from footlight.errors import InputError
from footlight.light.setup import Arrangement


@dataclass(frozen=True)
class Blade:
    """A straight opaque edge, `height_mm` [mm] above the sheet: 0 for a card lying on a dry sheet."""

    height_mm: float

    def __post_init__(self) -> None:
        if not 0 <= self.height_mm <= 300:
            raise InputError(
                f"blade: {self.height_mm:g} mm above the sheet; allowed is 0 to 300 mm, for example '30 mm'"
            )


def parallax_mm(blade_radius_mm: float, blade_height_mm: float, lens_to_sheet_mm: float) -> float:
    """How much further from the axis than the blade its shadow falls [mm]: r·c/(d - c), all in [mm]."""
    _below_the_lens(blade_height_mm, lens_to_sheet_mm)
    return blade_radius_mm * blade_height_mm / (lens_to_sheet_mm - blade_height_mm)


def mark_mm(edge_mm: float, axis_mm: float, blade: Blade, lens_to_sheet_mm: float) -> float:
    """Where the blade must stand [mm] for its shadow's edge to fall at `edge_mm` [mm] along the sheet.

    axis_mm: where the lens axis meets the sheet [mm]. All are measured from one end of the sheet.
    """
    _below_the_lens(blade.height_mm, lens_to_sheet_mm)
    shrink = (lens_to_sheet_mm - blade.height_mm) / lens_to_sheet_mm
    return axis_mm + (edge_mm - axis_mm) * shrink


def penumbra_mm(blade: Blade, at: Arrangement) -> float | None:
    """Width of the soft edge of the shadow [mm]: A·c/(d - c), with A the pupil f/N or the bare lamp's size.

    None where the size of the source is not known.
    """
    source = _source_mm(at)
    if source is None:
        return None
    _below_the_lens(blade.height_mm, at.height_mm)
    return source * blade.height_mm / (at.height_mm - blade.height_mm)


def _source_mm(at: Arrangement) -> float | None:
    if at.lens is None:
        return at.source_mm or None
    if at.focal_mm is None or at.stop is None:
        return None
    return at.focal_mm / at.stop.exact_value


def _below_the_lens(blade_height_mm: float, lens_to_sheet_mm: float) -> None:
    if blade_height_mm >= lens_to_sheet_mm / 2:
        raise InputError(
            f"blade: {blade_height_mm:g} mm above the sheet with the lens at {lens_to_sheet_mm:g}"
            " mm; it must be in"
            " the lower half"
        )
