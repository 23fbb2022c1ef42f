"""Check and compile a sequence file, and hold it against the baths that the notebook knows."""

from dataclasses import dataclass
from pathlib import Path

from footlight import sequence
from footlight.actions.forecast_baths import BathsAhead, forecast_baths


@dataclass(frozen=True)
class Plan:
    """compiled: what the controller would run, with its arithmetic. baths: whether they last for it."""

    compiled: sequence.Compiled
    baths: BathsAhead

    @property
    def notes(self) -> list[str]:
        """What is to be minded before it runs, a sentence each."""
        return [*self.compiled.warnings, *self.baths.notes]


def plan_sequence(file: Path, book: Path, now_s: int, setups: Path | None = None) -> Plan:
    """The plan of a file. Raises InputError: one line that names file, step, key, value, what is allowed.

    setups: a light-setups file instead of the one that the file names. now_s: computer's time [s since 1970].
    """
    compiled = sequence.compile(sequence.load(file, setups))
    return Plan(compiled, forecast_baths(compiled, book, now_s))
