"""Quantities of one number and one unit: lengths, volumes, masses, temperatures, light, percent, volts."""

from dataclasses import dataclass
from typing import NamedTuple

from footlight.errors import InputError
from footlight.quantities.number import as_text, split_number, within


class Unit(NamedTuple):
    """A unit as value_in_base = value * scale + offset; offset is used by temperatures only."""

    scale: float
    offset: float = 0.0


@dataclass(frozen=True)
class Kind:
    """One kind of quantity: how it is called, its units (spelling -> `Unit`), and what is believable."""

    noun: str
    units: dict[str, Unit]
    shown: str  # the units offered in messages
    example: str
    base: str  # unit of the value that is returned
    least: float
    most: float

    @property
    def allowed(self) -> str:
        return f"{self.least:g} to {self.most:g} {self.base}"


_INCH_MM = 25.4  # exact, international inch
_FOOT_CANDLE_LX = 10.763910416709722  # one lumen per square foot, exact from the inch

LENGTH = Kind(
    "a length",
    {
        "mm": Unit(1.0),
        "cm": Unit(10.0),
        "m": Unit(1000.0),
        "in": Unit(_INCH_MM),
        "inch": Unit(_INCH_MM),
        "inches": Unit(_INCH_MM),
        '"': Unit(_INCH_MM),
        "ft": Unit(12 * _INCH_MM),
    },
    "mm, cm, m, in, ft",
    "620 mm",
    "mm",
    0.001,
    100_000.0,
)
VOLUME = Kind(
    "a volume",
    {
        "ml": Unit(1.0),
        "mL": Unit(1.0),
        "cl": Unit(10.0),
        "dl": Unit(100.0),
        "l": Unit(1000.0),
        "L": Unit(1000.0),
        "litre": Unit(1000.0),
        "litres": Unit(1000.0),
    },
    "mL, cl, dl, L",
    "250 mL",
    "mL",
    0.001,
    1_000_000.0,
)
MASS = Kind(
    "a mass",
    {"mg": Unit(0.001), "g": Unit(1.0), "kg": Unit(1000.0)},
    "mg, g, kg",
    "25 g",
    "g",
    0.0001,
    100_000.0,
)
_FAHRENHEIT = Unit(5 / 9, -160 / 9)
TEMPERATURE = Kind(
    "a temperature",
    {
        "°C": Unit(1.0),
        "C": Unit(1.0),
        "degC": Unit(1.0),
        "°F": _FAHRENHEIT,
        "F": _FAHRENHEIT,
        "degF": _FAHRENHEIT,
    },
    "°C, °F",
    "20 °C",
    "°C",
    -20.0,
    110.0,
)
ILLUMINANCE = Kind(
    "an illuminance",
    {"lx": Unit(1.0), "lux": Unit(1.0), "klx": Unit(1000.0), "fc": Unit(_FOOT_CANDLE_LX)},
    "lx, klx, fc (foot-candle)",
    "12 lx",
    "lx",
    1e-6,
    1e6,
)
_LUX_SECOND_SPELLINGS = ("lx s", "lx·s", "lx*s", "lxs", "lux s", "lux-seconds", "lux-second", "lux seconds")
LUX_SECONDS = Kind(
    "a dose in lux-seconds",
    dict.fromkeys(_LUX_SECOND_SPELLINGS, Unit(1.0)),
    "lx s",
    "15 lx s",
    "lx s",
    1e-6,
    1e7,
)
LUMINANCE = Kind(
    "a luminance",
    dict.fromkeys(("cd/m2", "cd/m²", "cd/m^2", "nit"), Unit(1.0)),
    "cd/m2",
    "500 cd/m2",
    "cd/m2",
    1e-6,
    1e9,
)
PERCENT = Kind(
    "a percentage", dict.fromkeys(("%", "percent", "per cent"), Unit(1.0)), "%", "10 %", "%", 0.0, 100.0
)
VOLTS = Kind(
    "a voltage", {"V": Unit(1.0), "volt": Unit(1.0), "volts": Unit(1.0)}, "V", "230 V", "V", 0.1, 1000.0
)
DENSITY = Kind("an optical density", {"D": Unit(1.0)}, "D", "0.04 D", "D", 0.0, 6.0)


def read(kind: Kind, written: object, what: str) -> float:
    """The value of a written quantity in the base unit of its `kind`, or `InputError`."""
    text = as_text(written, what, kind.example)
    found = split_number(text)
    if found is None:
        raise InputError(
            f"{what}: '{text}' is not {kind.noun}; write a number and a unit, for example '{kind.example}'"
        )
    value, unit_text = found
    unit = _unit(kind, unit_text, text, what)
    return within(value * unit.scale + unit.offset, text, what, kind.least, kind.most, kind.allowed)


def _unit(kind: Kind, spelling: str, text: str, what: str) -> Unit:
    unit = kind.units.get(" ".join(spelling.split()))
    if unit is not None:
        return unit
    if not spelling:
        raise InputError(
            f"{what}: '{text}' has no unit; write {kind.noun} in {kind.shown}, for example '{kind.example}'"
        )
    if spelling.startswith(","):
        raise InputError(
            f"{what}: '{text}' has a comma; write decimals with a point, for example '{kind.example}'"
        )
    raise InputError(
        f"{what}: '{text}' is not {kind.noun}; its units are {kind.shown}, for example '{kind.example}'"
    )


def parse_length_mm(written: object, what: str) -> float:
    """A length above zero [mm], from `620 mm`, `62 cm`, `24.4 in`."""
    return read(LENGTH, written, what)


def parse_volume_ml(written: object, what: str) -> float:
    """A volume above zero [mL], from `1 L`, `250 ml`."""
    return read(VOLUME, written, what)


def parse_mass_g(written: object, what: str) -> float:
    """A mass above zero [g], from `25 g`, `1.2 kg`."""
    return read(MASS, written, what)


def parse_temperature_c(written: object, what: str) -> float:
    """A temperature [°C], from `20 °C`, `68 °F`; -20 to 110 °C."""
    return read(TEMPERATURE, written, what)


def parse_lux(written: object, what: str) -> float:
    """An illuminance above zero [lx], from `12 lx`, `1.1 fc`."""
    return read(ILLUMINANCE, written, what)


def parse_lux_seconds(written: object, what: str) -> float:
    """A dose above zero [lx s], from `15 lx s`."""
    return read(LUX_SECONDS, written, what)


def parse_luminance_cd_m2(written: object, what: str) -> float:
    """A luminance above zero [cd/m2], from `500 cd/m2`."""
    return read(LUMINANCE, written, what)


def parse_percent(written: object, what: str) -> float:
    """A percentage from 0 to 100 [%], from `10 %`."""
    return read(PERCENT, written, what)


def parse_volts(written: object, what: str) -> float:
    """A mains voltage [V], from `230 V`."""
    return read(VOLTS, written, what)


def parse_density_d(written: object, what: str) -> float:
    """An optical density [D], from `0.04 D`."""
    return read(DENSITY, written, what)


def format_length_mm(length_mm: float) -> str:
    """A length [mm] to a tenth of a millimetre below 100 mm, to a millimetre above: `620 mm`."""
    return f"{length_mm:.0f} mm" if abs(length_mm) >= 100 else f"{round(length_mm, 1):g} mm"


def format_volume_ml(volume_ml: float) -> str:
    """A volume [mL] as one would measure it out: `31.0 mL`, `310 mL`; litres from ten up: `12.5 L`."""
    if volume_ml >= 10_000:
        return f"{round(volume_ml / 1000, 2):g} L"
    return f"{volume_ml:.0f} mL" if volume_ml >= 100 else f"{volume_ml:.1f} mL"


def format_temperature_c(temperature_c: float) -> str:
    """A temperature [°C] to a tenth: `20 °C`."""
    return f"{round(temperature_c, 1):g} °C"


def format_percent(percent: float) -> str:
    """A percentage [%] to three figures: `10.7 %`."""
    return f"{percent:.3g} %"
