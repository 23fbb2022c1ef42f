"""What is known of a paper, as one normal distribution, and how a print with metered places moves it.

The state: how far each point of the curve is off [D], and a few numbers that shift all (NAMES), each with a
prior deviation. A print is taken in by Bayes' rule about the best estimate (iterated extended Kalman filter,
Bell and Cathey 1993), its own light, speed and contrast being its own and forgotten afterwards. A print that
what is known makes improbable is refused and asked about.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from footlight.tones.curve import Curve
from footlight.tones.exposures import Exposure, Weights, parts
from footlight.tones.matrices import Matrix, product, solved, transposed
from footlight.tones.monotone import cubics, falling

# sheet: speed of the test sheet against the batch [stops]. camera: meter and camera together [stops].
# contrast: share. flash: its weight [stops]. exponent: of long exposures. flare: its share [log e]. scale: of
# densities as read, share. The last four are of one print alone.
NAMES = (
    "sheet",
    "camera",
    "contrast",
    "flash",
    "exponent",
    "flare",
    "scale",
    "print_light",
    "print_speed",
    "print_contrast",
)
_OWN = ("print_light", "print_speed", "print_contrast")
# Common practice and experience, no source: contrast between sheets and batches, speed between batches.
CONTRAST_SD, BATCH_SD_STOPS, BATCH_CONTRAST_SD, SCALE_SD = 0.015, 0.12, 0.04, 0.004
# What one curve and one weight of the flash leave out, at each place [D].
MODEL_SD_D = 0.010
# A print is asked about where chance brings as much in fewer than one in two thousand.
_ASK_Z = 3.3
_ROUNDS = 3
_90_SD = 1.645


@dataclass(frozen=True)
class Doubts:
    """One standard deviation each: what is known of camera, flash and development beforehand.

    flare: of its share, relative. meter: of one reading, shutter: of one exposure, development: of one
    sheet's speed, camera: of meter and camera in every print alike [stops].
    """

    sheet_stops: float = 0.03
    camera_stops: float = 0.05
    flash_stops: float = 0.08
    exponent: float = 0.02
    flare: float = 0.3
    meter_stops: float = 0.085
    shutter_stops: float = 0.06
    development_stops: float = 0.04


@dataclass(frozen=True)
class Place:
    """A metered place of a print: its exposure by plan, its density as read and the deviation of that [D]."""

    name: str
    exposure: Exposure
    density_d: float
    sd_d: float = 0.012


@dataclass(frozen=True)
class Tone:
    """A predicted density with a 90 % band [D]; the exposure of the paper [stops from 1 lx s].

    is_beyond: outside what the curve was measured on.
    """

    density_d: float
    low_d: float
    high_d: float
    stops: float
    is_beyond: bool


@dataclass(frozen=True)
class Residual:
    """What a place became against what had been predicted [D], and that in deviations."""

    name: str
    predicted_d: float
    came_d: float
    deviations: float


@dataclass(frozen=True)
class Lesson:
    """A print taken in, or asked about: each place, and the question where it was not averaged in ('' if it
    was).
    """

    residuals: tuple[Residual, ...]
    question: str


@dataclass(frozen=True)
class Knowledge:
    """A paper as it is known: curve, weights, doubts, and the state with its covariance."""

    curve: Curve
    weights: Weights
    doubts: Doubts
    mean: tuple[float, ...]
    covariance: Matrix

    def tone(self, exposure: Exposure) -> Tone:
        """What a place will become on a sheet of this batch that departs by nothing."""
        stops, density = self._density(exposure, self.mean)
        row = self._row(exposure, self.mean)
        variance = _quadratic(row, self.covariance) + MODEL_SD_D**2 + self._past_d(stops) ** 2
        half = _90_SD * math.sqrt(variance)
        return Tone(density, max(density - half, 0.0), density + half, stops, self.curve.is_beyond(stops))

    def density_d(self, exposure: Exposure) -> float:
        """The density alone, without its band [D]."""
        return self._density(exposure, self.mean)[1]

    def value(self, name: str) -> float:
        """A number of the state by its name in NAMES."""
        return self.mean[len(self.curve.sds_d) + NAMES.index(name)]

    def of_another_batch(self) -> "Knowledge":
        """The same paper, a new batch: speed and contrast are surer no more."""
        rows = [list(row) for row in self.covariance]
        for name, sd in (("sheet", BATCH_SD_STOPS), ("contrast", BATCH_CONTRAST_SD)):
            place = len(self.curve.sds_d) + NAMES.index(name)
            rows[place][place] += sd**2
        return replace(self, covariance=rows)

    def after(self, places: Sequence[Place]) -> tuple["Knowledge", Lesson]:
        """What is known after a print; unchanged, with a question, where the print is improbable."""
        fresh = self._for_a_print()
        mean, covariance, lack = fresh._updated(places)
        residuals = tuple(fresh._residual(place) for place in places)
        if _z(lack, len(places)) > _ASK_Z:
            return self, Lesson(residuals, question_of(residuals))
        return replace(self, mean=tuple(mean), covariance=covariance)._without_print(), Lesson(residuals, "")

    def learnt_curve(self) -> Curve:
        """The curve as it stands now, for a sheet of this batch: points moved, made to fall again."""
        line = self.curve.line
        share = 1 + self.value("contrast")
        middle = self.curve.middle_stops
        places = [middle + (at - middle) / share - self.value("sheet") for at in line.places]
        values = falling(
            [value + off for value, off in zip(line.values, self.mean, strict=False)],
            [sd**-2 for sd in self.curve.sds_d],
        )
        return Curve(cubics(places, values, line.tail), self.curve.sds_d)

    def _density(self, exposure: Exposure, mean: Sequence[float]) -> tuple[float, float]:
        """Exposure on the curve's own scale [stops], and density [D]."""
        count = len(self.curve.sds_d)
        of = dict(zip(NAMES, mean[count:], strict=True))
        weights = replace(
            self.weights,
            p=self.weights.p + of["exponent"],
            flare_share=self.weights.flare_share * math.exp(of["flare"]),
            flash_share=self.weights.flash_share * 2 ** of["flash"],
        )
        stops = parts(exposure.moved(of["camera"] + of["print_light"]), weights).stops
        stops += of["sheet"] + of["print_speed"]
        middle = self.curve.middle_stops
        stops = middle + (1 + of["contrast"] + of["print_contrast"]) * (stops - middle)
        left, share = self._hat(stops)
        off = (1 - share) * mean[left] + share * mean[left + 1]
        return stops, (self.curve.at(stops) + off) * (1 + of["scale"])

    def _hat(self, stops: float) -> tuple[int, float]:
        """Between which points a place lies, and how far from the left to the right one (0 to 1)."""
        line = self.curve.line
        left = line.span(stops)
        width = line.places[left + 1] - line.places[left]
        return left, min(max((stops - line.places[left]) / width, 0.0), 1.0)

    def _row(self, exposure: Exposure, mean: Sequence[float]) -> list[float]:
        """How density changes with each number of the state, by small differences for what shifts all."""
        count = len(self.curve.sds_d)
        row = [0.0] * len(mean)
        left, share = self._hat(self._density(exposure, mean)[0])
        row[left], row[left + 1] = 1 - share, share
        for place, _ in enumerate(NAMES, start=count):
            # As wide as the doubt itself: across a toe, a slope at one point says too little.
            small = max(math.sqrt(self.covariance[place][place]), 1e-3)
            more, less = list(mean), list(mean)
            more[place] += small
            less[place] -= small
            row[place] = (self._density(exposure, more)[1] - self._density(exposure, less)[1]) / (2 * small)
        return row

    def _past_d(self, stops: float) -> float:
        """Doubt of what lies past the steps [D]: as much as is added there."""
        line = self.curve.line
        return abs(line.at(stops) - line.at(min(max(stops, line.places[0]), line.places[-1])))

    def _reading_variance(self, place: Place) -> float:
        """Of one place: reading, meter, and what the model leaves out."""
        stops = self._density(place.exposure, self.mean)[0]
        share = parts(place.exposure, self.weights)
        camera = share.camera_lx_s / max(2.0**share.stops, 1e-9)
        meter = self.doubts.meter_stops * camera * self.curve.slope(stops, 2 * self.doubts.meter_stops)
        return place.sd_d**2 + meter**2 + MODEL_SD_D**2

    def _updated(self, places: Sequence[Place]) -> tuple[list[float], Matrix, float]:
        """The state after a print, its covariance, and the improbability (chi-squared) of the print."""
        prior, around = list(self.mean), list(self.mean)
        noise = [self._reading_variance(place) for place in places]
        gain: Matrix = []
        rows: Matrix = []
        lack = 0.0
        for _ in range(_ROUNDS):
            rows = [self._row(place.exposure, around) for place in places]
            surprise = [
                place.density_d
                - self._density(place.exposure, around)[1]
                + sum(slope * (now - before) for slope, now, before in zip(row, around, prior, strict=True))
                for place, row in zip(places, rows, strict=True)
            ]
            spread = product(rows, self.covariance)
            total = product(spread, transposed(rows))
            for place, variance in enumerate(noise):
                total[place][place] += variance
            weights = solved(total, [[value] for value in surprise])
            lack = sum(value * weight[0] for value, weight in zip(surprise, weights, strict=True))
            gain = transposed(solved(total, spread))
            around = [
                before + sum(g * value for g, value in zip(row, surprise, strict=True))
                for before, row in zip(prior, gain, strict=True)
            ]
        less = product(gain, product(rows, self.covariance))
        covariance = [
            [whole - part for whole, part in zip(row, taken, strict=True)]
            for row, taken in zip(self.covariance, less, strict=True)
        ]
        return around, covariance, lack

    def _residual(self, place: Place) -> Residual:
        density = self._density(place.exposure, self.mean)[1]
        row = self._row(place.exposure, self.mean)
        sd = math.sqrt(_quadratic(row, self.covariance) + self._reading_variance(place))
        return Residual(place.name, density, place.density_d, (place.density_d - density) / sd)

    def _for_a_print(self) -> "Knowledge":
        """With a print's own light, speed and contrast unknown."""
        return self._with_own((self.doubts.shutter_stops, self.doubts.development_stops, CONTRAST_SD))

    def _without_print(self) -> "Knowledge":
        return self._with_own((0.0, 0.0, 0.0))

    def _with_own(self, sds: Sequence[float]) -> "Knowledge":
        first = len(self.curve.sds_d) + NAMES.index(_OWN[0])
        rows = [list(row) for row in self.covariance]
        for place, sd in enumerate(sds, start=first):
            for other in range(len(rows)):
                rows[place][other] = rows[other][place] = 0.0
            rows[place][place] = sd**2
        return replace(self, mean=(*self.mean[:first], *(0.0 for _ in sds)), covariance=rows)


def knowledge(curve: Curve, weights: Weights, doubts: Doubts) -> Knowledge:
    """What is known after one sheet: the curve as it was read, and the stated doubts."""
    sds = {
        "sheet": math.hypot(doubts.sheet_stops, doubts.development_stops),
        "camera": doubts.camera_stops,
        "contrast": CONTRAST_SD,
        "flash": doubts.flash_stops,
        "exponent": doubts.exponent,
        "flare": doubts.flare,
        "scale": SCALE_SD,
    }
    deviations = [*curve.sds_d, *(sds.get(name, 0.0) for name in NAMES)]
    covariance = [
        [sd**2 if row == column else 0.0 for column in range(len(deviations))]
        for row, sd in enumerate(deviations)
    ]
    return Knowledge(curve, weights, doubts, (0.0,) * len(deviations), covariance)


def question_of(residuals: Sequence[Residual]) -> str:
    """What to ask about a print that nothing known explains, by where it departs."""
    dark, light = (
        max(residuals, key=lambda each: each.predicted_d),
        min(residuals, key=lambda each: each.predicted_d),
    )
    worst = max(residuals, key=lambda each: abs(each.deviations))
    seen = f"{worst.name}: {worst.came_d:.2f} D came for {worst.predicted_d:.2f} D"
    if dark.deviations < -2.5:
        return f"{seen}; the blacks are weak: second exposure too short, second bath tired, another paper?"
    if light.deviations > 2.5:
        return f"{seen}; the lights are dark: bleach tired, second exposure too long, another paper?"
    return f"{seen}; is the reading of this place right, and is it this paper, bath and light?"


def _quadratic(row: Sequence[float], matrix: Matrix) -> float:
    used = [place for place, value in enumerate(row) if value]
    return max(sum(row[one] * row[other] * matrix[one][other] for one in used for other in used), 0.0)


def _z(lack: float, count: int) -> float:
    """How many deviations chi-squared lies above its mean (Wilson and Hilferty 1931)."""
    return ((lack / count) ** (1 / 3) - (1 - 2 / (9 * count))) / math.sqrt(2 / (9 * count))
