"""The one reader of written quantities, for commands and for TOML files alike.

A quantity is written as a person writes it, with its unit: `620 mm`, `1:30`, `f/11`, `20 °C`.
Every reader is called `parse_x(text, what)`: `what` is the subject that heads an error message
("step 3 'second exposure': height"). What cannot be read raises `InputError`, one line that says
what was written, what is expected, and an example. Units are in the names of the functions.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from footlight.quantities.age import format_age_h
    from footlight.quantities.dilution import Dilution, parse_dilution
    from footlight.quantities.duration import (
        format_clock,
        format_duration,
        format_seconds,
        parse_duration_ms,
        parse_seconds,
    )
    from footlight.quantities.fstop import FStop, format_stop, parse_stop
    from footlight.quantities.moment import parse_moment
    from footlight.quantities.number import parse_number
    from footlight.quantities.plain import (
        format_length_mm,
        format_percent,
        format_temperature_c,
        format_volume_ml,
        parse_density_d,
        parse_length_mm,
        parse_luminance_cd_m2,
        parse_lux,
        parse_lux_seconds,
        parse_mass_g,
        parse_percent,
        parse_temperature_c,
        parse_volts,
        parse_volume_ml,
    )
    from footlight.quantities.sheet import Sheet, format_sheet, parse_sheet
    from footlight.quantities.stops import format_stops, parse_stops
    from footlight.quantities.strength import Strength, parse_strength

__all__ = [
    "Dilution",
    "FStop",
    "Sheet",
    "Strength",
    "format_age_h",
    "format_clock",
    "format_duration",
    "format_length_mm",
    "format_percent",
    "format_seconds",
    "format_sheet",
    "format_stop",
    "format_stops",
    "format_temperature_c",
    "format_volume_ml",
    "parse_density_d",
    "parse_dilution",
    "parse_duration_ms",
    "parse_length_mm",
    "parse_luminance_cd_m2",
    "parse_lux",
    "parse_lux_seconds",
    "parse_mass_g",
    "parse_moment",
    "parse_number",
    "parse_percent",
    "parse_seconds",
    "parse_sheet",
    "parse_stop",
    "parse_stops",
    "parse_strength",
    "parse_temperature_c",
    "parse_volts",
    "parse_volume_ml",
]

# A command reads one or two kinds: the patterns of the others are not compiled for it.
_HOMES = {
    "age": ("format_age_h",),
    "dilution": ("Dilution", "parse_dilution"),
    "duration": (
        "format_clock",
        "format_duration",
        "format_seconds",
        "parse_duration_ms",
        "parse_seconds",
    ),
    "fstop": ("FStop", "format_stop", "parse_stop"),
    "moment": ("parse_moment",),
    "number": ("parse_number",),
    "plain": (
        "format_length_mm",
        "format_percent",
        "format_temperature_c",
        "format_volume_ml",
        "parse_density_d",
        "parse_length_mm",
        "parse_luminance_cd_m2",
        "parse_lux",
        "parse_lux_seconds",
        "parse_mass_g",
        "parse_percent",
        "parse_temperature_c",
        "parse_volts",
        "parse_volume_ml",
    ),
    "sheet": ("Sheet", "format_sheet", "parse_sheet"),
    "stops": ("format_stops", "parse_stops"),
    "strength": ("Strength", "parse_strength"),
}
_HOME = {name: home for home, names in _HOMES.items() for name in names}


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module 'footlight.quantities' has no attribute '{name}'")
    value = getattr(import_module(f"footlight.quantities.{_HOME[name]}"), name)
    globals()[name] = value  # looked up once
    return value
