"""Does the light cover the sheet: the carrier's opening as the lens projects it.

Thin lens, focused on the sheet: magnification m = d/f - 1 with d from the pupil, pupil ratio 1.
"""

from dataclasses import dataclass

from footlight.errors import InputError
from footlight.quantities import Sheet, format_length_mm


@dataclass(frozen=True)
class Coverage:
    """The patch of light [mm], and the margin beyond the sheet on the tightest side [mm], turned at will."""

    width_mm: float
    height_mm: float
    sheet: Sheet
    margin_mm: float
    wanted_margin_mm: float
    least_lens_to_sheet_mm: float

    @property
    def covers(self) -> bool:
        """True where the sheet lies in the light with the margin that was wanted."""
        return self.margin_mm >= self.wanted_margin_mm

    @property
    def summary(self) -> str:
        """One line: the patch, the margin, and the height that would do."""
        patch = f"patch of light {self.width_mm:.0f} x {self.height_mm:.0f} mm"
        if self.covers:
            return (
                f"{patch}: covers {self.sheet.name} with {self.margin_mm:.0f} mm to spare on the"
                " tightest side"
            )
        need = format_length_mm(self.least_lens_to_sheet_mm)
        short = f"only {self.margin_mm:.0f} mm" if self.margin_mm >= 0 else f"{-self.margin_mm:.0f} mm short"
        return (
            f"{patch}: {short} on the tightest side of {self.sheet.name}; {need} from lens to sheet"
            f" gives {self.wanted_margin_mm:g} mm all round"
        )


def projected(
    carrier: Sheet, focal_mm: float, lens_to_sheet_mm: float, sheet: Sheet, margin_mm: float = 10.0
) -> Coverage:
    """The patch of light from the carrier's opening, against a sheet and the margin wanted [mm].

    The sheet is turned to whichever way fits. margin_mm: for a wet sheet placed by hand (10 mm: common
    practice, no source). Assumes that the head is focused on the sheet. Raises `InputError` where the sheet
    is not beyond the focal length, where nothing can be in focus.
    """
    if focal_mm <= 0:
        raise InputError(f"focal length: {focal_mm:g} mm must be more than zero, for example '80 mm'")
    if lens_to_sheet_mm <= focal_mm:
        raise InputError(
            f"height: {lens_to_sheet_mm:g} mm is not beyond the focal length of {focal_mm:g} mm;"
            " nothing can be"
            " in focus there"
        )
    m = lens_to_sheet_mm / focal_mm - 1
    opening = sorted((carrier.width_mm, carrier.height_mm))
    sides = sorted((sheet.width_mm, sheet.height_mm))
    margins = [(bright * m - side) / 2 for bright, side in zip(opening, sides, strict=True)]
    least_m = max((side + 2 * margin_mm) / bright for bright, side in zip(opening, sides, strict=True))
    return Coverage(
        carrier.width_mm * m, carrier.height_mm * m, sheet, min(margins), margin_mm, focal_mm * (least_m + 1)
    )
