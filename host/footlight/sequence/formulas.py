"""What a tray is mixed from: a shipped formula by name, or a formula file beside the sequence."""

from pathlib import Path

from footlight.chemistry import shelf
from footlight.chemistry.formula import Formula, formula_of
from footlight.chemistry.hazards import formula_named
from footlight.errors import InputError
from footlight.quantities.table import in_file
from footlight.sequence.errors import nearest, short
from footlight.sequence.files import beside, read_toml

_ENDING = ".toml"


def formula_for(written: str, sequence_path: Path, what: str) -> Formula | None:
    """The formula that a tray names, None where it names none.

    Raises InputError for a name that is not shipped, and for a formula file that is not right.
    """
    if not written:
        return None
    if written.endswith(_ENDING):
        found = read_toml(beside(sequence_path, written, what), "a formula file")
        return formula_of(found.table, in_file(found.head.file))
    formula = formula_named(written)
    if formula is None:
        hint = nearest(written, list(shelf.NAMES))
        raise InputError(
            f"{what}: there is no formula '{short(written)}'{hint}; or name a file, such as 'my-bleach.toml'"
        )
    return formula
