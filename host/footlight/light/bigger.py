"""From a small sheet to a large one: 'the same second exposure, now 8x10'.

Two honest answers: stay where the lamp is and accept darker corners, or go higher, so that the corners
miss no more than they did, and give the light that this height needs.
"""

from dataclasses import dataclass, replace

from footlight.light.evenness import Evenness, height_for_loss_mm, of_sheet, source_of
from footlight.light.exposure import Exposure
from footlight.light.inverse import Change, choices
from footlight.light.setup import Arrangement
from footlight.quantities import Sheet


@dataclass(frozen=True)
class Bigger:
    """before: the old sheet where the lamp is. stay: the new sheet at the same height.

    raised: the new sheet at the height that keeps the corners within `tolerance_stops` [stops]. answers:
    the exposures at that height, the surest first. area_ratio: new area / old area, for baths and trays.
    """

    before: Evenness
    stay: Evenness
    raised: Evenness
    tolerance_stops: float
    answers: tuple[Exposure, ...]
    area_ratio: float

    @property
    def can_stay(self) -> bool:
        """True where the new sheet is even enough without going higher."""
        return self.stay.corner_stops <= self.tolerance_stops + 1e-9


def same_exposure(
    seconds: float,
    at: Arrangement,
    old: Sheet,
    new: Sheet,
    *,
    tolerance_stops: float | None = None,
    change: Change | None = None,
) -> Bigger:
    """The exposure found good for `old` [s, at `at`], for the sheet `new`.

    tolerance_stops: what the corners may miss [stops]; without it, as much as those of the old sheet did.
    Assumes sheets centred under the lens, and cos⁴ (a lens), the disc formula (a bare lamp of known
    diameter) or cos³ (a bare lamp).
    """
    source = source_of(at)
    before, stay = (of_sheet(sheet, at.height_mm, source) for sheet in (old, new))
    allowed = before.corner_stops if tolerance_stops is None else tolerance_stops
    height_mm = max(height_for_loss_mm(new, allowed, source), at.height_mm)
    raised = of_sheet(new, height_mm, source)
    answers = choices(seconds, at, _raised(at, height_mm), change)
    return Bigger(before, stay, raised, allowed, tuple(answers), new.area_cm2 / old.area_cm2)


def _raised(at: Arrangement, height_mm: float) -> Arrangement:
    """`at` moved to a height that the column can be set to: whole millimetres."""
    return replace(at, height_mm=float(round(height_mm)))
