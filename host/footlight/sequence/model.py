"""The checked sequence: what a photographer wrote, with every value read and every default filled in."""

from dataclasses import dataclass
from pathlib import Path

from footlight.chemistry.formula import Formula
from footlight.light.setup import LightSetup
from footlight.quantities import Sheet
from footlight_core import program


@dataclass(frozen=True)
class Lamp:
    """A lamp. show: its name on the display. cap_ms: the longest light in one go [ms]. window_ms: the most
    light in any ten minutes [ms]. least_ms: the shortest remainder that its relay can do [ms]."""

    name: str
    show: str
    cap_ms: int
    window_ms: int
    least_ms: int


@dataclass(frozen=True)
class PlacedSetup:
    """A light setup of the file with its lamp. lens: what the display calls the lens, '' for a bare lamp."""

    setup: LightSetup
    lamp: Lamp
    lens: str

    @property
    def name(self) -> str:
        """What the file calls it."""
        return self.setup.name


@dataclass(frozen=True)
class Tray:
    """A tray. place, tongs: as the display shows them. bath: what stands in it, in words. formula: the
    formula as it is named, '' for none; mixed: that formula. life_sheets: how many sheets its filling lasts,
    0 where none is given."""

    name: str
    place: str
    tongs: str
    size: Sheet | None
    bath: str
    formula: str
    mixed: Formula | None
    life_sheets: int


@dataclass(frozen=True)
class Step:
    """What all steps have. auto: begins by itself when the step before it ends. white: white light is
    permitted from here on. note: for people."""

    number: int
    name: str
    show: str
    auto: bool
    white: bool
    note: str


@dataclass(frozen=True)
class Agitation:
    """first_ms at the start [ms]; then for_ms at every every_ms [ms]; 0 = none."""

    first_ms: int
    every_ms: int
    for_ms: int


@dataclass(frozen=True)
class Bath(Step):
    """A tray and a time. lift_ms: its last part, lifting [ms]. aside: runs beside the steps after it."""

    tray: Tray
    time_ms: int
    lift_ms: int
    agitation: Agitation
    aside: bool

    kind = "bath"
    core_kind = program.BATH


@dataclass(frozen=True)
class Cue:
    """A sound within a step by hand. at_ms: from its start [ms]."""

    at_ms: int
    show: str


@dataclass(frozen=True)
class ByHand(Step):
    """A step guided by sound."""

    tray: Tray | None
    time_ms: int
    cues: tuple[Cue, ...]

    kind = "by hand"
    core_kind = program.HAND


@dataclass(frozen=True)
class UntilPressed(Step):
    """A step judged by eye, between a least and a most time [ms]."""

    tray: Tray | None
    least_ms: int
    most_ms: int

    kind = "until pressed"
    core_kind = program.JUDGE


@dataclass(frozen=True)
class Dose:
    """How much light, in one of three ways; the other two are None.

    stops: from the reference exposure [stops]. reference_s: light at the reference height and stop [s].
    lux_s: dose [lx s].
    """

    written: str
    stops: float | None = None
    reference_s: float | None = None
    lux_s: float | None = None


@dataclass(frozen=True)
class Light(Step):
    """A light. placed: its setup, at the height and stop of this step. dose: None where time_ms is written
    [ms]. already: what the paper has had of this dose before. settle_ms: a wet sheet settles [ms]."""

    placed: PlacedSetup
    dose: Dose | None
    already: Dose | None
    time_ms: int
    settle_ms: int

    kind = "light"
    core_kind = program.LIGHT


@dataclass(frozen=True)
class Pause(Step):
    """A message; the pedal goes on."""

    kind = "pause"
    core_kind = program.PAUSE


AnyStep = Bath | ByHand | UntilPressed | Light | Pause


@dataclass(frozen=True)
class Sequence:
    """A checked sequence.

    title: on the display. sheets: how many in a batch, 1 for a wet run. sheet: size of the paper, if
    written. trays: in the order of the file. setups_used: in the order of their first light. places:
    step number -> how a message calls it. setups_path: the light-setups file that was read, None without a
    light.
    """

    path: Path
    title: str
    name: str
    about: str
    sheets: int
    sheet: Sheet | None
    trays: tuple[Tray, ...]
    steps: tuple[AnyStep, ...]
    setups_used: tuple[LightSetup, ...]
    places: dict[int, str]
    setups_path: Path | None = None
