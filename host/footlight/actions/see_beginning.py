"""See how far a first set-up is: what is there already, and what is still to be done."""

from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from footlight import examples
from footlight.actions.arrange_sequence import list_sequences, open_draft, setup_faults_of
from footlight.actions.list_baths import list_baths
from footlight.actions.list_lenses import list_lenses
from footlight.actions.list_papers import list_papers
from footlight.actions.list_setups import list_setups
from footlight.errors import InputError

Part = Literal["sequence", "setups", "paper", "baths", "lens", "strip"]


@dataclass(frozen=True)
class Stage:
    """One part of the set-up. trouble: what is wrong with what is there, '' for nothing."""

    part: Part
    is_done: bool
    trouble: str = ""


def see_beginning(book: Path, folder: Path, now_s: int) -> tuple[Stage, ...]:
    """The stages, in the order in which they are best done. folder: of the sequences. now_s [s since 1970].
    Raises NotebookError for a notebook that cannot be read."""
    sequences = list_sequences(folder)
    spoilt = next((file.trouble for file in sequences if file.trouble), "")
    is_there = book.is_file()
    return (
        Stage("sequence", any(not file.trouble for file in sequences), spoilt),
        _setups(folder / examples.SETUPS),
        Stage("paper", is_there and bool(list_papers(book).batches)),
        Stage("baths", is_there and bool(list_baths(book, now_s).shelf.in_use)),
        Stage("lens", is_there and bool(list_lenses(book))),
        Stage("strip", is_there and bool(list_setups(book, None, 1))),
    )


def _setups(path: Path) -> Stage:
    """Done where the file can be read and is no longer the invented example."""
    try:
        draft = open_draft(path)
    except InputError:
        return Stage("setups", False)
    faults = setup_faults_of(draft)
    is_own = draft.text != examples.text(examples.SETUPS)
    return Stage("setups", is_own and not faults, faults[0].text if faults else "")
