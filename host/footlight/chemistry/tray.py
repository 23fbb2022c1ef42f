"""How much a tray takes: area times depth, and whether a volume fits under the rim."""

from footlight.chemistry.dilution import above_zero
from footlight.errors import InputError
from footlight.quantities import Sheet, format_length_mm, format_volume_ml

# Depth at which a sheet is surely covered when the tray is rocked: common practice, no source.
LEAST_DEPTH_MM = 8.0
# Rim left free for rocking and for the sheet's own wave: common practice, no source.
FREE_RIM_MM = 15.0


def volume_ml(inside: Sheet, depth_mm: float) -> float:
    """Volume [mL] that stands `depth_mm` [mm] deep in a tray with these inner sides: area × depth.

    Taken as a box; sloping sides hold a little more. Raises `InputError` for a depth of zero or less.
    """
    above_zero(depth_mm, "depth", "mm", "15 mm")
    return inside.width_mm * inside.height_mm * depth_mm / 1000


def depth_mm(inside: Sheet, volume: float) -> float:
    """How deep [mm] `volume` [mL] stands in it. Raises `InputError` for a volume of zero or less."""
    above_zero(volume, "volume", "mL", "1 L")
    return volume * 1000 / (inside.width_mm * inside.height_mm)


def most_ml(inside: Sheet, rim_mm: float) -> float:
    """The most [mL] that can be rocked in a tray whose rim is `rim_mm` [mm] above its bottom.

    Raises `InputError` for a rim that leaves no depth.
    """
    if not FREE_RIM_MM < rim_mm < float("inf"):
        raise InputError(
            f"rim: {rim_mm:g} mm leaves no depth under {FREE_RIM_MM:g} mm of free rim; measure the height of"
            " the tray inside, for example '60 mm'"
        )
    return volume_ml(inside, rim_mm - FREE_RIM_MM)


def check_fits(inside: Sheet, rim_mm: float, volume: float) -> float:
    """How deep [mm] `volume` [mL] stands; raises `InputError` where it does not fit under the rim."""
    deep_mm, most = depth_mm(inside, volume), most_ml(inside, rim_mm)
    if volume > most:
        raise InputError(
            f"volume: {format_volume_ml(volume)} stands {format_length_mm(deep_mm)} deep in this tray; with"
            f" {FREE_RIM_MM:g} mm of its {format_length_mm(rim_mm)} rim kept free it takes at most"
            f" {format_volume_ml(most)}"
        )
    return deep_mm


def depth_note(deep_mm: float) -> str | None:
    """A caution for a tray that is too shallowly filled [mm], or None."""
    if deep_mm >= LEAST_DEPTH_MM:
        return None
    return (
        f"{format_length_mm(deep_mm)} is shallow: below {LEAST_DEPTH_MM:g} mm a rocked sheet may fall dry"
        " (common practice)"
    )
