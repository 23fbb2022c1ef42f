"""Fill a tray: how much it takes at a depth, and whether a volume fits under its rim."""

from dataclasses import dataclass

from footlight.chemistry import tray
from footlight.errors import InputError, field
from footlight.quantities import Sheet, format_length_mm, format_sheet, format_volume_ml


@dataclass(frozen=True)
class TrayVolume:
    """A volume [mL], how deep it stands [mm], and what to know about it."""

    volume_ml: float
    depth_mm: float | None = None
    notes: tuple[str, ...] = ()


def to_depth(inside: Sheet, depth_mm: float, rim_mm: float | None = None) -> TrayVolume:
    """What stands `depth_mm` [mm] deep. Raises InputError where it does not fit under the rim [mm]."""
    return with_volume(inside, tray.volume_ml(inside, depth_mm), rim_mm)


def with_volume(inside: Sheet, volume_ml: float, rim_mm: float | None = None) -> TrayVolume:
    """How deep a volume [mL] stands. Raises InputError where it does not fit under the rim [mm]."""
    deep_mm = tray.depth_mm(inside, volume_ml)
    if rim_mm is not None:
        tray.check_fits(inside, rim_mm, volume_ml)
    note = tray.depth_note(deep_mm)
    return TrayVolume(volume_ml, deep_mm, (note,) if note else ())


def volume_for(
    volume_ml: float | None, inside: Sheet | None, depth_mm: float, rim_mm: float | None
) -> TrayVolume | None:
    """The volume that is wanted, straight [mL] or by tray and depth [mm]; None where neither is said."""
    if inside is None:
        if rim_mm is not None and volume_ml is not None:
            raise InputError(
                f"{field('rim')}: give the tray's inner size too, for example {field('tray')} '9.5x12 in'"
            )
        return None if volume_ml is None else TrayVolume(volume_ml)
    filled = (
        to_depth(inside, depth_mm, rim_mm) if volume_ml is None else with_volume(inside, volume_ml, rim_mm)
    )
    stands = (
        f"{format_volume_ml(filled.volume_ml)} stands {format_length_mm(filled.depth_mm or 0)} deep in"
        f" {format_sheet(inside)}"
    )
    return TrayVolume(filled.volume_ml, filled.depth_mm, (stands, *filled.notes))
