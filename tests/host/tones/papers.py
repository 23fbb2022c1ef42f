"""An invented paper for the tests of the tones work: an S in stops, from 2.05 D to 0.08 D about 1 lx s."""

from footlight.tones.curve import Curve, Sheet, Step, curve_of
from footlight.tones.exposures import Exposure, Weights
from footlight.tones.learning import Doubts, Knowledge, Place, knowledge

WEIGHTS = Weights(flare_share=0.0, flash_share=1.0)
SHADOWS = tuple(Exposure(lx_s, 1.0, 1.0) for lx_s in (0.05, 0.10))


def density_d(lx_s: float) -> float:
    return 0.08 + 1.97 / (1 + lx_s**1.5)


def sheet(count: int = 21, half_stops: int = 2) -> Sheet:
    stops = [(place - count // 2) / half_stops for place in range(count)]
    steps = tuple(Step(2.0**each, round(density_d(2.0**each), 3)) for each in stops)
    return Sheet(steps, 1.0, 0.0, 0.0)


def a_curve() -> Curve:
    return curve_of(sheet(), WEIGHTS)


def a_paper(doubts: Doubts | None = None) -> Knowledge:
    return knowledge(a_curve(), WEIGHTS, doubts or Doubts())


def a_print(off_stops: float = 0.0, black_loss: float = 0.0) -> list[Place]:
    """A print of places from -3 to +2 stops, all with so much more light, or with weak blacks."""
    names = ("doorway", "slate", "bark", "lawn", "wall", "rail")
    return [
        Place(
            name,
            Exposure(2.0**stops, 1.0, 1.0),
            density_d(2.0 ** (stops + off_stops)) * (1 - black_loss),
        )
        for name, stops in zip(names, range(-3, 3), strict=True)
    ]
