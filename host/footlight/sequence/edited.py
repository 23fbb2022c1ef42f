"""Values changed in the text of a sequence file; its comments, order and blanks stay as they were written."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from footlight.errors import InputError


@dataclass(frozen=True)
class Edit:
    """A value to be written. table: '' for the head, 'step 7', 'trays.bleach'."""

    table: str
    key: str
    value: str


def edited(source: str, edits: Iterable[Edit], head: Sequence[str] = (), mark: str = "") -> str:
    """The text with these values, and comment lines at its head.

    source: a sequence file that has been read before. mark: earlier head lines that begin with it are
    replaced. Raises InputError for a text that is no TOML.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    try:
        document = tomlkit.parse(source)
        for edit in edits:
            _table(document, edit.table)[edit.key] = edit.value
        text = tomlkit.dumps(document)
    except TOMLKitError as error:
        raise InputError(f"the sequence as it was kept cannot be changed ({error})") from error
    return "".join(f"# {line}\n" for line in head) + _without(text, mark)


def _table(document, name: str):
    if not name:
        return document
    kind, _, rest = name.partition(" " if name.startswith("step ") else ".")
    return document[kind][int(rest) - 1 if kind == "step" else rest]


def _without(text: str, mark: str) -> str:
    lines = text.splitlines(keepends=True)
    while mark and lines and lines[0].startswith(f"# {mark}"):
        del lines[0]
    return "".join(lines)
