"""The campaign over simulated papers that become positives: the tones work, marked by its judge.

    python -m tests.soak.tones COUNT [SEED]

Each case twice: after the first test sheet (batch A), and after ten prints (the newest batch). Prints that
the judge knows to be spoilt are counted as asked about or not.
"""

import sys
from collections.abc import Sequence
from dataclasses import dataclass

from tests.witnesses.tone_papers import judge
from tests.witnesses.tone_papers.cases import Case, Notes, Print, TestSheet, batches_of, case

from footlight.tones.advice import stops_for
from footlight.tones.curve import Sheet, Step, curve_of
from footlight.tones.exposures import Exposure, Weights
from footlight.tones.learning import Doubts, Knowledge, Place, knowledge

ENLARGER_FLARE = 0.004


def after_one_sheet(printer: Case) -> Knowledge:
    """What the first sheet and the notes tell."""
    notes, sheet = printer.notes, printer.sheets[0]
    weights = Weights(
        notes.flare_share, notes.flash_share, notes.reciprocity_p, sheet.duration_s, sheet.flash_duration_s
    )
    curve = curve_of(_sheet(sheet, notes), weights)
    return knowledge(curve, weights, _doubts(notes, sheet))


def _sheet(sheet: TestSheet, notes: Notes) -> Sheet:
    flare = notes.flare_share if sheet.source == "camera" else ENLARGER_FLARE
    steps = tuple(Step(step.lx_s, step.density_d, step.density_sd_d) for step in sheet.steps)
    return Sheet(steps, sheet.duration_s, sheet.mean_lx_s, flare, sheet.flash_lx_s, sheet.light_sd_stops)


def _doubts(notes: Notes, sheet: TestSheet) -> Doubts:
    return Doubts(
        sheet.light_sd_stops,
        notes.chain_sd_stops,
        notes.flash_share_sd_stops,
        notes.reciprocity_p_sd,
        notes.flare_share_sd / notes.flare_share,
        notes.meter_sd_stops,
        notes.shutter_sd_stops,
        notes.development_sd_stops,
    )


def places_of(made: Print) -> list[Place]:
    """A print's places as the tool has them."""
    mean = made.lx_s(made.mean_ev)
    return [
        Place(
            place.name,
            Exposure(made.lx_s(place.metered_ev), mean, made.duration_s, made.flash_lx_s),
            place.density_d,
            place.density_sd_d,
        )
        for place in made.places
    ]


def after_prints(printer: Case) -> tuple[Knowledge, list[int]]:
    """What is known after every print, and which were asked about."""
    known, batch, asked = after_one_sheet(printer), "A", []
    for number, made in enumerate(printer.prints):
        if made.batch != batch:
            known, batch = known.of_another_batch(), made.batch
        known, lesson = known.after(places_of(made))
        if lesson.question:
            asked.append(number)
    return known, asked


def exposure_of(asked: judge.Question) -> Exposure:
    """A judge's question as an exposure."""
    return Exposure(asked.lx_s, asked.mean_lx_s, asked.duration_s, asked.flash_lx_s)


def marks_of(printer: Case, known: Knowledge, batch: str) -> judge.Marks:
    """The judge's marks for what is known."""

    def predict(asked: judge.Question) -> judge.Answer:
        tone = known.tone(exposure_of(asked))
        return judge.Answer(tone.density_d, tone.low_d, tone.high_d, tone.is_beyond)

    def advise(aim: judge.Wanted) -> float:
        return stops_for(known, exposure_of(aim.place), aim.density_d).stops

    return judge.marks(printer, predict, advise, batch)


@dataclass(frozen=True)
class Row:
    """A case: its marks after one sheet and after prints; prints spoilt and told, spoilt, asked about in
    vain.
    """

    first: judge.Marks
    last: judge.Marks
    told: int
    spoilt: int
    in_vain: int


def row_of(seed: int) -> Row:
    """One case, whole."""
    printer = case(seed)
    known, asked = after_prints(printer)
    spoilt = set(printer.truth.spoilt_prints)
    return Row(
        marks_of(printer, after_one_sheet(printer), "A"),
        marks_of(printer, known, batches_of(printer.prints)[-1]),
        len(spoilt & set(asked)),
        len(spoilt),
        len(set(asked) - spoilt),
    )


def lines(rows: Sequence[Row]) -> list[str]:
    """The table of the page."""
    first, last = [row.first for row in rows], [row.last for row in rows]
    said = [f"{len(rows)} papers"]
    for title, marks in (("one sheet", first), ("ten prints", last)):
        for within in (0.12, 0.08):
            shares = judge.shares(marks, within)
            told = ", ".join(f"{name} {value:.1f}" for name, value in shares.items())
            said.append(f"{title}, within {within} D: {told}")
    said.append(
        f"spoilt prints asked about: {sum(row.told for row in rows)} of {sum(row.spoilt for row in rows)};"
        f" in vain: {sum(row.in_vain for row in rows)} of"
        f" {10 * len(rows) - sum(row.spoilt for row in rows)}"
    )
    return said


if __name__ == "__main__":
    _COUNT, _SEED = int(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 0
    for line in lines([row_of(seed) for seed in range(_SEED, _SEED + _COUNT)]):
        print(line)
