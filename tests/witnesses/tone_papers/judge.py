"""Questions with known answers, and how well a prediction does on them: the numbers of the tones work.

A fit takes part through two functions: `Predict`, density of a place, and `Advise`, how to set the camera for
a wanted tone. Questions name light by meter and plan, as `Print.lx_s` has it: what meter and camera are off
in every print alike is part of the answer and can be learnt from prints; that of one reading is not.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

import numpy as np
from tests.witnesses.tone_papers.cases import FLASH_COLOUR, FLASH_S, Case, Truth
from tests.witnesses.tone_papers.papers import Light

# Densities that count: from here to the black less that [D].
FROM_D, BELOW_BLACK_D = 0.15, 0.10


@dataclass(frozen=True)
class Question:
    """A place: its own light without flare [lx s], the mean of its scene [lx s], flash [lx s], a batch.

    Flare is the camera's: the notes' `flare_share` of the mean. The flash is tungsten light of 2 s.
    """

    lx_s: float
    mean_lx_s: float
    colour: str
    duration_s: float
    flash_lx_s: float
    batch: str


@dataclass(frozen=True)
class Answer:
    """Density with a 90 % band [D]; `beyond` says that it lies outside what the curve was measured on."""

    density_d: float
    low_d: float
    high_d: float
    beyond: bool = False


@dataclass(frozen=True)
class Wanted:
    """A place of a scene shall have a density [D]: by how many stops is its light to be changed?"""

    place: Question
    density_d: float


Predict = Callable[[Question], Answer]
# The change of the whole scene's exposure [stop]: place and mean alike, the flash as it is.
Advise = Callable[[Wanted], float]


@dataclass(frozen=True)
class Marks:
    """Of one case: errors [D], whether bands cover, how often beyond was unsaid, errors of advice [stop]."""

    off_d: tuple[float, ...]
    covered: tuple[bool, ...]
    beyond_unsaid: int
    beyond_asked: int
    advice_off_stops: tuple[float, ...]


def questions(case: Case, count: int = 12, batch: str = "A") -> tuple[Question, ...]:
    """Places whose answer counts, within what the first sheet was exposed to, in the sheet's own colour."""
    rng = np.random.default_rng([81, case.seed])
    asked: list[Question] = []
    while len(asked) < count:
        question = _question(case, batch, rng)
        true = answer_d(case.truth, question)
        counts = FROM_D <= true <= black_d(case.truth, batch) - BELOW_BLACK_D
        if counts and not is_beyond(case, question, 0.0):
            asked.append(question)
    return tuple(asked)


def questions_beyond(case: Case, count: int = 4, batch: str = "A") -> tuple[Question, ...]:
    """Places half a stop or more beyond the steps of the sheet: to be told as such, whatever is answered."""
    rng = np.random.default_rng([82, case.seed])
    low, high = _measured_lx_s(case)
    asked = []
    for number in range(count):
        far = 2.0 ** float(rng.uniform(0.5, 2.0))
        lx_s = high * far if number % 2 else low / far
        asked.append(Question(lx_s, lx_s, case.notes.camera_colour, case.sheets[0].duration_s, 0.0, batch))
    return tuple(asked)


def answer_d(truth: Truth, question: Question) -> float:
    """The true answer [D]."""
    return truth.density_d(
        question.lx_s,
        question.mean_lx_s,
        question.colour,
        question.duration_s,
        question.flash_lx_s,
        question.batch,
    )


def black_d(truth: Truth, batch: str) -> float:
    """The batch's fullest black [D]."""
    nothing = [Light(FLASH_COLOUR, 0.0, FLASH_S)]
    return float(truth.paper.density_d(nothing, truth.batches[batch]))


def best_stops(truth: Truth, wanted: Wanted) -> float:
    """The change of exposure that gives the wanted tone, by halving [stop]."""
    low, high = -12.0, 12.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (
            (middle, high)
            if answer_d(truth, moved(wanted.place, middle)) > wanted.density_d
            else (low, middle)
        )
    return (low + high) / 2


def moved(place: Question, stops: float) -> Question:
    """The same place of the same scene under more or less light."""
    return Question(
        place.lx_s * 2**stops,
        place.mean_lx_s * 2**stops,
        place.colour,
        place.duration_s,
        place.flash_lx_s,
        place.batch,
    )


def wanted(case: Case, count: int = 4, batch: str = "A") -> tuple[Wanted, ...]:
    """Tones that the place can have, some stops away from what it has."""
    rng = np.random.default_rng([83, case.seed])
    aims = []
    for place in questions(case, count, batch):
        # With its flash the paper may not reach its fullest black any more.
        bare = Question(0.0, 0.0, place.colour, place.duration_s, place.flash_lx_s, batch)
        most = answer_d(case.truth, bare) - 0.25
        aims.append(Wanted(place, float(rng.uniform(min(0.3, most - 0.1), most))))
    return tuple(aims)


def is_beyond(case: Case, question: Question, by_stops: float) -> bool:
    """Whether a place's own light lies outside the steps of the first sheet by so much."""
    low, high = _measured_lx_s(case)
    return not low / 2**by_stops <= question.lx_s <= high * 2**by_stops


def marks(case: Case, predict: Predict, advise: Advise | None = None, batch: str = "A") -> Marks:
    """All questions of a case, put to one fit."""
    pairs = [(answer_d(case.truth, asked), predict(asked)) for asked in questions(case, batch=batch)]
    far = [predict(asked) for asked in questions_beyond(case, batch=batch)]
    aims = wanted(case, batch=batch) if advise else ()
    return Marks(
        tuple(answer.density_d - true for true, answer in pairs),
        tuple(answer.low_d <= true <= answer.high_d for true, answer in pairs),
        sum(not answer.beyond for answer in far),
        len(far),
        tuple(advise(aim) - best_stops(case.truth, aim) for aim in aims) if advise else (),
    )


def shares(rows: Iterable[Marks], within_d: float) -> dict[str, float]:
    """The numbers to hold over all cases [%]: within so much, covered, advice within 0.15 stop, unsaid."""
    kept = list(rows)
    off = np.concatenate([row.off_d for row in kept])
    advice = np.concatenate([row.advice_off_stops for row in kept])
    return {
        "questions": float(len(off)),
        "within": 100 * float(np.mean(np.abs(off) <= within_d)),
        "covered": 100 * float(np.mean(np.concatenate([row.covered for row in kept]))),
        "advice within 0.15 stop": 100 * float(np.mean(np.abs(advice) <= 0.15))
        if len(advice)
        else float("nan"),
        "beyond, unsaid": float(sum(row.beyond_unsaid for row in kept)),
    }


def _measured_lx_s(case: Case) -> tuple[float, float]:
    lit = [step.lx_s for step in case.sheets[0].steps]
    return min(lit), max(lit)


def _question(case: Case, batch: str, rng: np.random.Generator) -> Question:
    low, high = _measured_lx_s(case)
    lx_s = float(np.exp(rng.uniform(np.log(low), np.log(high))))
    duration = float(rng.choice([1.0, 2.0, 4.0, 8.0, 15.0]))
    flash = float(rng.choice([0.0, 0.5, 1.0, 1.5])) * case.truth.flash_threshold_lx_s
    mean = float(np.sqrt(low * high)) * 2.0 ** float(rng.normal(0, 0.5))
    return Question(lx_s, mean, case.notes.camera_colour, duration, flash, batch)
