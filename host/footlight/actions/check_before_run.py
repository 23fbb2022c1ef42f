"""The check list before a run: from the sequence, and from what the notebook knows."""

from dataclasses import dataclass, replace
from pathlib import Path

from footlight import sequence
from footlight.actions.count_paper import count_paper
from footlight.actions.forecast_baths import forecast_baths
from footlight.actions.look_at_trays import look_at_trays
from footlight.baths.check import Check
from footlight.baths.checks import Known, checks
from footlight.sequence import Compiled
from footlight.sequence.warnings import small_trays


@dataclass(frozen=True)
class CheckList:
    """What to see to, in the order in which one walks through the darkroom. trouble: why the notebook could
    not be read, '' otherwise. mismatches: trays in which another bath stands than the sequence's, which stops
    a run: a sentence each."""

    title: str
    name: str
    checks: tuple[Check, ...]
    trouble: str = ""
    mismatches: tuple[str, ...] = ()


def check_before_run(file: Path, book: Path, now_s: int) -> CheckList:
    """The list for a sequence file. Raises InputError. now_s: the computer's time [s since 1970]."""
    compiled = sequence.compile(sequence.load(file))
    trays = look_at_trays(compiled.sequence, book, now_s)
    compiled = replace(compiled, sequence=trays.sequence)
    known, trouble = _known(compiled, book, now_s)
    wrong = tuple(Check("bath", sentence, wrong=True) for sentence in trays.mismatches.values())
    few = count_paper(compiled.sequence, book)
    wrong += (Check("paper", few, wrong=True),) if few else ()
    wrong += tuple(Check("tray", sentence, wrong=True) for sentence in small_trays(compiled.sequence))
    listed = (*wrong, *checks(compiled, known, now_s))
    mismatches = tuple(trays.mismatches.values())
    return CheckList(compiled.sequence.title, compiled.sequence.name, listed, trouble, mismatches)


def _known(compiled: Compiled, book: Path, now_s: int) -> tuple[Known, str]:
    if not book.is_file():
        return Known(), ""
    from footlight.baths import flashed
    from footlight.notebook.book import notebook
    from footlight.notebook.stock import fog_tests

    with notebook(book, writing=False) as connection:
        waiting, tests = flashed.waiting(connection, now_s), fog_tests.kept(connection)
    baths = forecast_baths(compiled, book, now_s)
    return Known(baths.forecast, waiting, tests), baths.trouble
