"""What a printer has in hand of one paper: notes, test sheets that were read, prints with metered places.

All that stands in `Case` but its `truth` may be used by a fit: planned light as it was meant to be, densities
and meters as they were read, each with the standard deviation that an honest user would state.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from tests.witnesses.tone_papers import papers
from tests.witnesses.tone_papers.papers import Light, Paper, State

# Illuminance times time on the film of a place that the meter was set for: 0.65 x 12.5 / index. From memory:
# H = 0.65 L t / N² (ISO 2721) and L t / N² = K / S with K = 12.5 (ISO 2720).
PLACE_LX_S = 8.125
FLASH_COLOUR = "tungsten"
FLASH_S = 2.0
SCANNER_SD_D, DENSITOMETER_SD_D = 0.012, 0.008


@dataclass(frozen=True)
class Notes:
    """What is known of paper and camera beforehand, and how surely (one standard deviation).

    `flash_threshold_lx_s`: the flash alone that takes 0.04 D from the fullest black (tungsten, 2 s).
    `flash_share`: how one lux-second of flash light acts against one of the camera's, both of a second, by a
    bridging strip at middle grey (D 0.8); a multigrade's layers differ in it.
    `meter_sd_stops` is of one reading, `shutter_sd_stops` of one exposure, `development_sd_stops` of one
    sheet's speed; `chain_sd_stops` is what meter and camera together are off in every print alike.
    """

    layers: int
    camera_colour: str
    reciprocity_p: float
    reciprocity_p_sd: float
    flare_share: float
    flare_share_sd: float
    flash_threshold_lx_s: float
    flash_threshold_sd_stops: float
    flash_share: float
    flash_share_sd_stops: float
    meter_sd_stops: float
    shutter_sd_stops: float
    chain_sd_stops: float
    development_sd_stops: float


@dataclass(frozen=True)
class Step:
    """A step of a test sheet: its own light by plan [lx s], without the flash, and its density as read [D].

    What lens or camera scatters over it is not in `lx_s`; the sheet's `mean_lx_s` says how bright all was.
    """

    lx_s: float
    density_d: float
    density_sd_d: float


@dataclass(frozen=True)
class TestSheet:
    """One sheet under one colour, fully reversed: a step wedge by enlarger, or a grey scale by camera.

    Flare is the notes' share of `mean_lx_s` where the source is 'camera', and 0.4 % by enlarger.
    `light_sd_stops` is of all steps together.
    """

    __test__ = False
    source: str
    batch: str
    colour: str
    duration_s: float
    mean_lx_s: float
    flash_lx_s: float
    flash_colour: str
    flash_duration_s: float
    light_sd_stops: float
    reading: str
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class Place:
    """A place of a scene: metered (EV at ISO 100, spot), and its density in the print as read [D]."""

    name: str
    metered_ev: float
    density_d: float
    density_sd_d: float


@dataclass(frozen=True)
class Print:
    """A print of a scene. A place of `set_ev` gets 8.125 / index [lx s]; each EV above twice as much.

    `mean_ev` is what the meter says of the whole scene: flare is the notes' share of that, over everything.
    """

    batch: str
    colour: str
    index: float
    set_ev: float
    duration_s: float
    mean_ev: float
    flash_lx_s: float
    flash_colour: str
    flash_duration_s: float
    places: tuple[Place, ...]

    def lx_s(self, place_ev: float) -> float:
        """What a place of that reading gets on the paper, by plan and without flare [lx s]."""
        return PLACE_LX_S / self.index * 2 ** (place_ev - self.set_ev)


@dataclass(frozen=True)
class Truth:
    """For the judge alone: the paper of the newest batch, its camera, and which prints went wrong."""

    paper: Paper
    batches: dict[str, State]
    flare_share: float
    flash_threshold_lx_s: float
    chain_off_stops: float
    spoilt_prints: tuple[int, ...]

    def lights(
        self, lx_s: float, mean_lx_s: float, colour: str, duration_s: float, flash_lx_s: float
    ) -> tuple[Light, ...]:
        """The parts of one place as they truly are: its own light, flare, flash."""
        more = 2**self.chain_off_stops
        return (
            Light(colour, more * (lx_s + self.flare_share * mean_lx_s), duration_s),
            Light(FLASH_COLOUR, flash_lx_s, FLASH_S),
        )

    def density_d(
        self, lx_s: float, mean_lx_s: float, colour: str, duration_s: float, flash_lx_s: float, batch: str
    ) -> float:
        """What a place of that light by meter and plan becomes on a sheet without a departure [D]."""
        parts = self.lights(lx_s, mean_lx_s, colour, duration_s, flash_lx_s)
        return float(self.paper.density_d(parts, self.batches[batch]))


@dataclass(frozen=True)
class Case:
    """One printer's paper: what a fit may use, and the truth, which it may not."""

    seed: int
    notes: Notes
    sheets: tuple[TestSheet, ...]
    prints: tuple[Print, ...]
    truth: Truth


@dataclass(frozen=True)
class _World:
    """What is true of meter, shutter and development in one case."""

    truth: Truth
    notes: Notes
    meter_off_stops: float
    camera_off_stops: float


PLACES = (
    "deep doorway",
    "wet slate",
    "tree bark",
    "gravel",
    "lawn",
    "plaster wall",
    "cloud edge",
    "white rail",
)


def case(seed: int, prints: int = 10) -> Case:
    """The case of a seed."""
    rng = np.random.default_rng([18, seed])
    world = _world(rng)
    sheets = [_sheet(world, world.notes.camera_colour, rng)]
    if world.notes.layers == 2 and rng.uniform() < 0.5:
        others = [c for c in ("daylight", "shade", "tungsten") if c != world.notes.camera_colour]
        sheets.append(_sheet(world, str(rng.choice(others)), rng))
    change = int(rng.integers(4, 9))
    made = [_print(world, number, "A" if number < change else "B", rng) for number in range(prints)]
    return Case(seed, world.notes, tuple(sheets), tuple(made), world.truth)


def _world(rng: np.random.Generator) -> _World:
    paper = papers.paper(rng)
    flare = float(rng.uniform(0.004, 0.03))
    colour = str(rng.choice(["daylight", "shade", "tungsten"], p=[0.6, 0.25, 0.15]))
    batches = {"A": State(), "B": State(float(rng.normal(0, 0.12)), float(rng.normal(0, 0.04)))}
    spoilt = tuple(int(number) for number in np.flatnonzero(rng.uniform(size=10) < 0.04))
    threshold = paper.lx_s_for(paper.black_d - 0.04, FLASH_COLOUR, FLASH_S, [])
    notes = Notes(
        len(paper.layers),
        colour,
        float(np.clip(paper.reciprocity_p + rng.normal(0, 0.015), 0.85, 1.0)),
        0.015,
        flare * float(np.exp(rng.normal(0, 0.3))),
        0.3 * flare,
        threshold * 2.0 ** float(rng.normal(0, 0.08)),
        0.08,
        _bridge(paper, colour) * 2.0 ** float(rng.normal(0, 0.05)),
        0.05,
        0.085,
        0.06,
        0.05,
        0.04,
    )
    meter, camera = (float(off) for off in rng.normal(0, 0.035, 2))
    truth = Truth(paper, batches, flare, threshold, camera - meter, spoilt)
    return _World(truth, notes, meter, camera)


def _bridge(paper: Paper, colour: str) -> float:
    """One lux-second of the flash in those of the camera's colour, matched at D 0.8, both of one second."""
    return paper.lx_s_for(0.8, colour, 1.0, []) / paper.lx_s_for(0.8, FLASH_COLOUR, 1.0, [])


def _middle_lx_s(paper: Paper, colour: str, duration_s: float) -> tuple[float, float]:
    """Where the paper's scale begins and ends under a light [lx s]."""
    dark = paper.lx_s_for(paper.black_d - 0.05, colour, duration_s, [])
    pale = paper.lx_s_for(paper.white_d + 0.05, colour, duration_s, [])
    return dark, pale


def _sheet(world: _World, colour: str, rng: np.random.Generator) -> TestSheet:
    """A wedge by enlarger goes by thirds or halves of a stop, a grey scale by what its steps reflect."""
    source = str(rng.choice(["enlarger", "camera"]))
    duration = float(rng.choice([1.0, 2.0, 4.0, 8.0, 15.0]))
    paper, notes = world.truth.paper, world.notes
    dark, pale = _middle_lx_s(paper, colour, duration)
    stops = np.log2(pale / dark)
    off = float(rng.normal(0, 0.3))
    if source == "enlarger":
        step = float(rng.choice([1 / 3, 1 / 2]))
        count = int(min(21, np.ceil((stops + 2.5) / step) + 1))
        planned = dark * 2.0 ** ((stops - step * (count - 1)) / 2 + off + step * np.arange(count))
        sd = 0.03
        true = planned * 2.0 ** (rng.normal(0, 0.02) + rng.normal(0, 0.015, count))
    else:
        scale_d = np.round(np.linspace(0.05, 1.75, int(rng.integers(12, 22))), 2)
        planned = pale * 2.0**0.9 * 10.0 ** -(scale_d - 0.05) * 2.0**off
        sd = float(np.hypot(notes.shutter_sd_stops, 0.03))
        true = planned * 2.0 ** (
            world.camera_off_stops + rng.normal(0, 0.04) + rng.normal(0, 0.015, len(planned))
        )
    flash = float(rng.choice([0.0, 0.5])) * world.truth.flash_threshold_lx_s
    lens = world.truth.flare_share if source == "camera" else 0.004
    lights = (
        Light(colour, true + lens * true.mean(), duration),
        Light(FLASH_COLOUR, flash * 2.0 ** float(rng.normal(0, 0.03)), FLASH_S),
    )
    state = State(float(rng.normal(0, notes.development_sd_stops)), float(rng.normal(0, 0.015)))
    density = paper.density_d(lights, state)
    reading = str(rng.choice(["scanner", "densitometer"]))
    return TestSheet(
        source,
        "A",
        colour,
        duration,
        float(planned.mean()),
        flash,
        FLASH_COLOUR,
        FLASH_S,
        sd,
        reading,
        tuple(
            Step(float(lx_s), seen, sd_d)
            for lx_s, (seen, sd_d) in zip(planned, _read(density, reading, rng), strict=True)
        ),
    )


def _read(density: np.ndarray, reading: str, rng: np.random.Generator) -> list[tuple[float, float]]:
    """Densities as read, to a hundredth, with the deviation an honest user states [D]."""
    if reading == "scanner":
        scale, lift = rng.normal(1, 0.006), rng.uniform(0.0, 0.0012)
        seen = -np.log10(10.0 ** (-density * scale) + lift)
        sd = SCANNER_SD_D
    else:
        seen, sd = density, DENSITOMETER_SD_D
    seen = seen + rng.normal(0, 0.7 * sd, len(density))
    return [(float(np.round(value, 2)), sd) for value in seen]


def _print(world: _World, number: int, batch: str, rng: np.random.Generator) -> Print:
    """A scene of three to eight places about the middle of the scale, metered, printed and scanned."""
    truth, notes = world.truth, world.notes
    duration = float(rng.choice([0.5, 1.0, 2.0, 4.0, 8.0, 15.0]))
    dark, pale = _middle_lx_s(truth.paper, notes.camera_colour, duration)
    index = float(rng.choice([1.5, 2.0, 3.0, 4.0, 6.0]))
    set_ev = float(np.round(rng.uniform(7, 14), 1))
    middle = set_ev + np.log2(np.sqrt(dark * pale) / (PLACE_LX_S / index)) + rng.normal(0, 0.4)
    reach = 0.5 * np.log2(pale / dark) + 0.6
    true_ev = np.sort(middle + rng.uniform(-reach, reach, int(rng.integers(3, 9))))
    names = sorted(rng.choice(len(PLACES), len(true_ev), replace=False))
    mean_ev = float(np.log2(np.mean(2.0**true_ev)) + rng.normal(0, 0.15))
    threshold = truth.flash_threshold_lx_s
    flash = float(np.round(rng.choice([0.0, 0.0, 0.5, 1.0, 1.5]) * threshold, 3))
    light = PLACE_LX_S / index * 2.0 ** (true_ev - set_ev)
    light = light * 2.0 ** (world.camera_off_stops + rng.normal(0, 0.06))
    mean = PLACE_LX_S / index * 2.0 ** (mean_ev - set_ev)
    parts = (
        Light(notes.camera_colour, light + truth.flare_share * mean, duration),
        Light(FLASH_COLOUR, flash * 2.0 ** float(rng.normal(0, 0.03)), FLASH_S),
    )
    density = truth.paper.density_d(parts, _state(world, number, batch, rng))
    metered = true_ev + world.meter_off_stops + rng.normal(0, 0.08, len(true_ev))
    return Print(
        batch,
        notes.camera_colour,
        index,
        set_ev,
        duration,
        float(np.round(mean_ev + world.meter_off_stops + rng.normal(0, 0.1), 1)),
        flash,
        FLASH_COLOUR,
        FLASH_S,
        tuple(
            Place(PLACES[name], float(np.round(ev, 1)), seen, sd)
            for name, ev, (seen, sd) in zip(names, metered, _read(density, "scanner", rng), strict=True)
        ),
    )


def _state(world: _World, number: int, batch: str, rng: np.random.Generator) -> State:
    """Development varies from sheet to sheet; a spoilt print has weak blacks or silver left in its lights."""
    base = world.truth.batches[batch]
    speed = base.speed_stops + float(rng.normal(0, world.notes.development_sd_stops))
    contrast = base.contrast_share + float(rng.normal(0, 0.015))
    if number not in world.truth.spoilt_prints:
        return State(speed, contrast)
    if rng.uniform() < 0.5:
        return State(speed, contrast, black_loss=float(rng.uniform(0.2, 0.4)))
    return State(speed, contrast, residue_share=float(rng.uniform(0.06, 0.15)))


def batches_of(prints: Sequence[Print]) -> tuple[str, ...]:
    """The batches in the order of their first print."""
    return tuple(dict.fromkeys(made.batch for made in prints))
