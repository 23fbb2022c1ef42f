"""A sequence file is looked at, arranged and written, its comments kept; what it says outside is not lost."""

import difflib
import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from footlight import sequence
from footlight.errors import FootlightError, InputError, field
from footlight.quantities.table import choice
from footlight.sequence import arranged, setups_edit
from footlight.sequence.compiler import Compiled
from footlight.sequence.faults import Fault, faults, setup_faults
from footlight.sequence.files import MOST_BYTES
from footlight.sequence.spans import Span
from footlight.sequence.step_keys import KINDS
from footlight.sequence.written_values import inner_keys, setup_values_of, table_of, values_of, with_values

__all__ = ["Fault", "inner_keys", "setup_values_of", "values_of"]

_MOST_FILES = 500
# Some editors begin a file with it, and end lines as a typewriter does; both are written back as they were.
_BOM = "\N{ZERO WIDTH NO-BREAK SPACE}"


@dataclass(frozen=True)
class SequenceFile:
    """A file of a folder. title: '' where it cannot be read as a sequence, and trouble says why."""

    name: str
    title: str
    full_name: str = ""
    steps: int = 0
    trouble: str = ""


@dataclass(frozen=True)
class Draft:
    """A text that is to be the file at `path`. made_from: a fingerprint of what the file said then."""

    path: Path
    text: str
    made_from: str

    @property
    def trays(self) -> list[str]:
        """Names of its trays, in order. Raises InputError for a text that is no TOML."""
        trays = table_of(self.text).get("trays")
        return list(trays) if isinstance(trays, dict) else []

    @property
    def kinds(self) -> list[str]:
        """The kind of each step, '' for one that is none. Raises InputError for a text that is no TOML."""
        steps = table_of(self.text).get("step")
        raws = steps if isinstance(steps, list) else []
        kinds = [raw.get("kind") if isinstance(raw, dict) else "" for raw in raws]
        return [kind if kind in KINDS else "" for kind in kinds]


@dataclass(frozen=True)
class CheckedDraft:
    """faults: everything that is wrong with it, at its place. compiled: what the controller would run, None
    where anything is wrong."""

    faults: tuple[Fault, ...]
    compiled: Compiled | None

    @property
    def spans(self) -> list[Span]:
        """Its planned time line, empty where anything is wrong."""
        return sequence.timeline(self.compiled) if self.compiled else []


def list_sequences(folder: Path) -> list[SequenceFile]:
    """The sequence files of a folder, by name; files that are no sequence at all are left out."""
    files = sorted(path for path in folder.glob("*.toml") if path.is_file())[:_MOST_FILES]
    return [listed for path in files if (listed := _listed(path))]


def _listed(path: Path) -> SequenceFile | None:
    try:
        if "[[step]]" not in setups_edit.read(path):
            return None
        loaded = sequence.load(path)
    except FootlightError as error:
        return SequenceFile(path.name, "", trouble=error.text)
    return SequenceFile(path.name, loaded.title, loaded.name, len(loaded.steps))


def open_draft(path: Path) -> Draft:
    """A file as it is. Raises InputError where there is none that can be read."""
    text = setups_edit.read(path)
    made_from = fingerprint(text)
    if len(text) > MOST_BYTES:
        raise InputError(f"{path.name}: larger than {MOST_BYTES // 1024} KiB, which is no sequence")
    return Draft(path, text.removeprefix(_BOM).replace("\r\n", "\n"), made_from)


def fingerprint(text: str) -> str:
    """What a text says, in a few letters."""
    return hashlib.sha256(text.encode("utf-8")).hexdigest()[:16]


def typed(draft: Draft, values: Mapping[tuple[str, str], str]) -> Draft:
    """The draft with these values, (table, key) -> as written, '' for none. Raises InputError."""
    return replace(draft, text=with_values(draft.text, values))


def move_step(draft: Draft, number: int, to: int) -> Draft:
    """The draft with a step in the place of another, both from 1. Raises InputError, as all of these do."""
    return replace(draft, text=arranged.moved(draft.text, number, to))


def take_step(draft: Draft, number: int) -> Draft:
    """The draft without a step."""
    return replace(draft, text=arranged.without(draft.text, number))


def add_step(draft: Draft, kind: str, after: int) -> Draft:
    """The draft with a new step of that kind behind step `after`, 0 for before all."""
    return replace(draft, text=arranged.with_step(draft.text, choice(kind, KINDS, field("kind")), after))  # pyright: ignore[reportArgumentType]


def add_tray(draft: Draft, name: str) -> Draft:
    """The draft with another tray."""
    if not name:
        raise InputError(f"{field('new_tray')}: give the tray a name, for example 'fixer'")
    return replace(draft, text=arranged.with_tray(draft.text, name))


def take_tray(draft: Draft, name: str) -> Draft:
    """The draft without a tray."""
    return replace(draft, text=arranged.without_tray(draft.text, name))


def check_draft(draft: Draft) -> CheckedDraft:
    """Everything that is wrong with a draft, and what the controller would run."""
    wrong = faults(draft.text, draft.path)
    if wrong:
        return CheckedDraft(tuple(wrong), None)
    try:
        return CheckedDraft((), sequence.compile(sequence.load_text(draft.text, draft.path)))
    except FootlightError as error:
        return CheckedDraft((Fault("", "", error.text),), None)


def changes_of(draft: Draft) -> list[str]:
    """How a draft differs from what the file says now, line by line: `+` new, `-` gone."""
    now = open_draft(draft.path).text
    lines = difflib.unified_diff(now.splitlines(), draft.text.splitlines(), "file", "draft", n=1, lineterm="")
    return [line for line in lines if not line.startswith(("---", "+++"))]


def is_stale(draft: Draft) -> bool:
    """Was the file changed since the draft was made from it?"""
    return open_draft(draft.path).made_from != draft.made_from


def setups_typed(draft: Draft, values: Mapping[tuple[str, str], str]) -> Draft:
    """The same of a light-setups file."""
    return replace(draft, text=with_values(draft.text, values, setup_values_of))


def setup_faults_of(draft: Draft) -> tuple[Fault, ...]:
    """Everything that is wrong with a light-setups file, at its place."""
    return tuple(setup_faults(draft.text, draft.path))


def save_setups(draft: Draft) -> Draft:
    """Write a light-setups file, as `save_draft` does a sequence."""
    return _saved(draft, setup_faults_of(draft))


def save_draft(draft: Draft) -> Draft:
    """Write a draft into its file -> it, made from what the file now says.

    Raises InputError where the file was changed since the draft was made from it, and where anything is wrong
    with the draft: the file is then as it was.
    """
    return _saved(draft, check_draft(draft).faults)


def _saved(draft: Draft, wrong: tuple[Fault, ...]) -> Draft:
    if is_stale(draft):
        raise InputError(f"{draft.path.name}: was changed meanwhile; nothing was written")
    if wrong:
        raise InputError(f"{draft.path.name}: {wrong[0].text}; nothing was written")
    before = setups_edit.read(draft.path)
    text = draft.text.replace("\n", "\r\n") if "\r\n" in before else draft.text
    setups_edit.write(draft.path, (_BOM if before.startswith(_BOM) else "") + text)
    return open_draft(draft.path)
