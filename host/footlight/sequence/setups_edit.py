"""Write reference exposures into a light-setups file: nothing else in it changes, no comment, no blank.

The file is written whole beside the old one and then put in its place, so a power cut leaves the old or the
new one.
"""

import os
import shutil
import tempfile
from pathlib import Path

from footlight.errors import InputError, field
from footlight.sequence.setups import setups_from_text

_BOM = "\N{ZERO WIDTH NO-BREAK SPACE}"


def read(path: Path) -> str:
    """The text of a file as it is, line ends and all. Raises InputError where it cannot be read."""
    try:
        return path.read_bytes().decode("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise InputError(
            f"{path}: cannot be read ({error}); name the light-setups file: {field('setups')}"
        ) from error


def references(text: str, name: str) -> dict[str, str]:
    """The reference exposure of each light setup as it is written, '' for none. Raises InputError."""
    setups_from_text(text.removeprefix(_BOM), name)
    return {setup: str(table.get("reference", "")) for setup, table in _document(text)["setup"].items()}  # pyright: ignore[reportAttributeAccessIssue]


def with_references(text: str, name: str, wanted: dict[str, str]) -> str:
    """The text with other reference exposures, '' to take one out. Raises InputError for no exposure."""
    document = _document(text)
    for setup, written in wanted.items():
        table = document["setup"][setup]  # pyright: ignore[reportIndexIssue]
        if written:
            table["reference"] = written  # pyright: ignore[reportIndexIssue]
        else:
            table.remove("reference")  # pyright: ignore[reportAttributeAccessIssue]
    changed = (_BOM if text.startswith(_BOM) else "") + document.as_string()
    if references(changed, name) != references(text, name) | wanted:
        raise InputError(f"{name}: its form does not let the reference be written safely; write it by hand")
    return changed


def write(path: Path, text: str) -> None:
    """A new text in the place of a file's. Raises InputError where it cannot; the old one is then there."""
    real = path.resolve()
    made = None
    try:
        handle, made = tempfile.mkstemp(dir=real.parent, prefix=f".{real.name}.")
        with os.fdopen(handle, "wb") as file:
            file.write(text.encode("utf-8"))
            file.flush()
            os.fsync(file.fileno())
        shutil.copymode(real, made)
        os.replace(made, real)
    except OSError as error:
        if made is not None:
            Path(made).unlink(missing_ok=True)
        raise InputError(f"{path}: cannot be written ({error.strerror}); nothing was changed") from error


def _document(text: str):
    import tomlkit

    return tomlkit.parse(text.removeprefix(_BOM))
