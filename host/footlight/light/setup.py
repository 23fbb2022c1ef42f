"""The light setup: what must be the same for a time to mean the same light."""

from dataclasses import dataclass, field
from typing import Literal, NamedTuple

from footlight.errors import InputError
from footlight.quantities import FStop, format_length_mm, format_stop

Head = Literal["condenser", "diffuser"]
RelayKind = Literal["contacts", "zero-crossing", "random-on"]


class Build(NamedTuple):
    """How the lamp is built and switched, for the warnings; mains_hz [Hz]."""

    head: Head | None = None
    relay: RelayKind = "contacts"
    mains_hz: float = 50.0


@dataclass(frozen=True)
class Arrangement:
    """All that decides how bright the light at the sheet is.

    lamp: name of the lamp. lens: name of the lens, None for a bare lamp. focal_mm: its focal length [mm],
    needed only when lenses are swapped. stop: None for a bare lamp. height_mm: lens pupil (or bare lamp)
    to the sheet in its tray [mm]. filter: name, None for no filter. nd_density_d: neutral density in the
    beam [D]. source_mm: diameter of a bare lamp's bright opening [mm], 0 for a point.
    """

    lamp: str
    lens: str | None
    focal_mm: float | None
    stop: FStop | None
    height_mm: float
    filter: str | None = None
    nd_density_d: float = 0.0
    source_mm: float = 0.0

    def __post_init__(self) -> None:
        _above_zero(self.height_mm, "height", "mm", "620 mm")
        if self.focal_mm is not None:
            _above_zero(self.focal_mm, "focal length", "mm", "80 mm")
        if self.lens is not None and self.stop is None:
            raise InputError(f"lens '{self.lens}': no stop is given; write for example 'f/11'")

    def __str__(self) -> str:
        """`620 mm f/11`, `900 mm` for a bare lamp."""
        height = format_length_mm(self.height_mm)
        return f"{height} {format_stop(self.stop)}" if self.stop else height


@dataclass(frozen=True)
class Reference:
    """The exposure that was found good, in this setup but for its height and stop.

    seconds: light given [s], without dead time. height_mm: lens pupil to sheet [mm]. stop: None for a
    bare lamp.
    """

    seconds: float
    height_mm: float
    stop: FStop | None

    def __post_init__(self) -> None:
        _above_zero(self.seconds, "reference exposure", "s", "6 s")
        _above_zero(self.height_mm, "reference height", "mm", "620 mm")


@dataclass(frozen=True)
class MeterReading:
    """What a meter said on the sheet's place in this setup: illuminance [lx] at a height [mm] and stop."""

    lux: float
    height_mm: float
    stop: FStop | None

    def __post_init__(self) -> None:
        _above_zero(self.lux, "meter reading", "lx", "12 lx")
        _above_zero(self.height_mm, "height of the meter reading", "mm", "620 mm")


@dataclass(frozen=True)
class Departure:
    """Measured departure of one paper from reciprocity: effect ∝ E·t**p; p_uncertainty is 1 sigma."""

    p: float
    p_uncertainty: float = 0.02

    def __post_init__(self) -> None:
        if not 0.5 <= self.p <= 1.2:
            raise InputError(f"departure exponent p: {self.p:g} is out of range; allowed is 0.5 to 1.2")


@dataclass(frozen=True)
class LightSetup:
    """A lamp as it stands now, and the exposure that was found good with it.

    name: what the photographer calls it. lamp, lens, focal_mm [mm], stop, height_mm [mm], filter,
    nd_density_d [D], source_mm [mm]: see `Arrangement`. dead_ms: lamp-on time that gives no light [ms].
    reference: the exposure found good, or None where none is known yet. meter: a lux reading, if one was
    taken. departure: measured long-exposure behaviour of the paper, if it was. head and relay: how the
    lamp is built and switched, for the warnings. mains_hz: 50 or 60 [Hz]. highest_mm: to which the column
    lets it stand [mm], None where nobody said.
    """

    name: str
    lamp: str
    lens: str | None
    focal_mm: float | None
    stop: FStop | None
    height_mm: float
    dead_ms: int = 0
    filter: str | None = None
    reference: Reference | None = None
    meter: MeterReading | None = None
    nd_density_d: float = 0.0
    source_mm: float = 0.0
    departure: Departure | None = None
    head: Head | None = None
    relay: RelayKind = "contacts"
    mains_hz: float = 50.0
    highest_mm: float | None = None
    here: Arrangement = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        if not 0 <= self.dead_ms <= 5000:
            raise InputError(
                f"light setup '{self.name}': dead time {self.dead_ms} ms; allowed is 0 to 5000 ms"
            )
        object.__setattr__(self, "here", self.arranged(self.height_mm, self.stop))

    @property
    def build(self) -> Build:
        """How this lamp is built and switched."""
        return Build(self.head, self.relay, self.mains_hz)

    def arranged(self, height_mm: float, stop: FStop | None) -> Arrangement:
        """This lamp, lens and filter at another height [mm] and stop."""
        return Arrangement(
            lamp=self.lamp,
            lens=self.lens,
            focal_mm=self.focal_mm,
            stop=stop,
            height_mm=height_mm,
            filter=self.filter,
            nd_density_d=self.nd_density_d,
            source_mm=self.source_mm,
        )


def _above_zero(value: float, what: str, unit: str, example: str) -> None:
    if not 0 < value < float("inf"):
        raise InputError(f"{what}: {value:g} {unit} must be more than zero, for example '{example}'")
