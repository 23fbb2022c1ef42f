"""Check and compile a sequence file, and hold it against the baths that the notebook knows."""

from dataclasses import dataclass, replace
from pathlib import Path

from footlight import sequence
from footlight.actions.count_paper import count_paper
from footlight.actions.forecast_baths import BathsAhead, forecast_baths
from footlight.actions.look_at_trays import look_at_trays


@dataclass(frozen=True)
class Plan:
    """compiled: what the controller would run, with its arithmetic, and with the baths that really stand in
    its trays. baths: whether they last for it. mismatches: trays in which another bath stands, a sentence
    each. too_few: what a batch takes and the box of paper has not, '' where it has."""

    compiled: sequence.Compiled
    baths: BathsAhead
    mismatches: tuple[str, ...] = ()
    too_few: str = ""

    @property
    def notes(self) -> list[str]:
        """What is to be minded before it runs, a sentence each."""
        few = [self.too_few] if self.too_few else []
        return [*self.mismatches, *few, *self.compiled.warnings, *self.baths.notes]


def plan_sequence(file: Path, book: Path, now_s: int, setups: Path | None = None) -> Plan:
    """The plan of a file. Raises InputError: one line that names file, step, key, value, what is allowed.

    setups: a light-setups file instead of the one that the file names. now_s: computer's time [s since 1970].
    """
    compiled = sequence.compile(sequence.load(file, setups))
    trays = look_at_trays(compiled.sequence, book, now_s)
    baths = forecast_baths(compiled, book, now_s)
    mismatches = tuple(trays.mismatches.values())
    too_few = count_paper(compiled.sequence, book)
    return Plan(replace(compiled, sequence=trays.sequence), baths, mismatches, too_few)
