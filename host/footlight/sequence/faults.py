"""Every fault of a sequence's text at once, each at its table and key, for whoever shows them at their place.

`reading` stops at the first; here each table is read by itself, with the same readers and the same words.
"""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from footlight.errors import FootlightError
from footlight.sequence import setup_keys
from footlight.sequence import step_keys as keys
from footlight.sequence.files import beside, read_text
from footlight.sequence.formulas import formula_for
from footlight.sequence.keys import Key, read_key, read_keys
from footlight.sequence.model import Tray
from footlight.sequence.places import Place
from footlight.sequence.reading import NOUN, has_light, named_tables, raw_steps, read_tray
from footlight.sequence.setups import NOUN as SETUPS_NOUN
from footlight.sequence.setups import load_setups, setups_from_text
from footlight.sequence.steps import Around, place_of, read_step

# Private-use characters, as in `errors`: no text of a file has them, for files with them are refused.
_BEGIN, _BETWEEN, _END = "\ue010", "\ue011", "\ue012"
_MARK = re.compile(f"{_BEGIN}([^{_BETWEEN}]*){_BETWEEN}([^{_END}]*){_END}:? ?")
_MISSING = re.compile(r"(\w+)(?: is missing;|:)")


@dataclass(frozen=True)
class Fault:
    """table: '' for the head, `trays.fixer`, `step 3`. key: '' for the table as a whole. text: what is wrong
    and what is allowed."""

    table: str
    key: str
    text: str


class _Marked(Place):
    """A place that marks itself in messages by table and key, instead of file and line."""

    def of(self, key: str = "") -> str:
        return f"{_BEGIN}{self.section}{_BETWEEN}{self.anchor or key}{_END}"


def faults(text: str, path: Path) -> list[Fault]:
    """What is wrong with a text that is to be the file at `path`; of each table the first. None where it can
    be read whole."""
    told: list[Fault] = []
    with _told(told):
        read = read_text(text, str(path), NOUN)
        head = _Marked(read.head.file, lines=read.head.lines)
        values = _head(read.table, head, told)
        trays = _trays(values.get("trays", {}), head, path, told)
        _steps(values, trays, head, path, told)
    return told


def setup_faults(text: str, path: Path) -> list[Fault]:
    """The same of a text that is to be a light-setups file; of each lamp and setup the first."""
    told: list[Fault] = []
    with _told(told):
        read = read_text(text, str(path), SETUPS_NOUN)
        head = _Marked(read.head.file, lines=read.head.lines)
        for kind, known in (("lamp", setup_keys.LAMP), ("setup", setup_keys.SETUP)):
            tables = read.table.get(kind)
            for name, raw in tables.items() if isinstance(tables, dict) else ():
                with _told(told, f"{kind}.{name}"):
                    read_keys(raw, known, head.table(f"{kind}.{name}", name))
        if not told:
            setups_from_text(text, path.name)
    return told


def _head(table: dict[str, Any], head: Place, told: list[Fault]) -> dict[str, Any]:
    values = {}
    with _told(told):
        known = {key.name: key.default for key in keys.HEAD}
        read_keys({**known, **table}, [_any(key) for key in keys.HEAD], head)
    for key in keys.HEAD:
        with _told(told):
            values[key.name] = read_key(table, key, head)
    return values


def _any(key: Key) -> Key:
    """The same key, whatever is written: only names are looked at."""
    return replace(key, reader=replace(key.reader, read=lambda written, what: written))


def _trays(raws: Any, head: Place, path: Path, told: list[Fault]) -> dict[str, Tray]:
    trays = {}
    with _told(told):
        for name, raw in named_tables(raws, head):
            # One that is wrong is a tray all the same: its steps are not at fault.
            trays[name] = Tray(name, "", "", None, name, "", None, 0)
            with _told(told, f"trays.{name}"):
                trays[name] = read_tray(name, raw, path, head, formula_for)
    return trays


def _steps(
    values: dict[str, Any], trays: dict[str, Tray], head: Place, path: Path, told: list[Fault]
) -> None:
    raws, lights = [], None
    with _told(told):
        raws = raw_steps(values["step"], head) if "step" in values else []
    if has_light(raws) and "setups" in values:
        with _told(told, key="setups"):
            lights = load_setups(beside(path, values["setups"], head.of("setups")))
    for number, raw in enumerate(raws, start=1):
        # Without its light setups no light can be read; that is said at the setups already.
        if lights or not has_light([raw]):
            with _told(told, f"step {number}"):
                read_step(number, raw, place_of(number, raw, head), Around(trays, lights))


@contextmanager
def _told(told: list[Fault], table: str = "", key: str = "") -> Iterator[None]:
    """What is wrong within is one more fault; it says its own table and key where a place marked them."""
    try:
        yield
    except FootlightError as error:
        marks, text = _MARK.findall(error.text), _MARK.sub("", error.text)
        if marks:
            table, key = marks[0]
            missing = _MISSING.match(text)
            key = key or (missing[1] if missing else "")
        told.append(Fault(table, key, text))
