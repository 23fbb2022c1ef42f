"""The values of a sequence's text as a form shows them, and written back: comments, order and blanks stay.

A value within a table of its own (`agitation`) has a dot in its key; a list of cues is a line for each.
"""

import re
import tomllib
from collections.abc import Callable, Mapping
from typing import Any

from footlight.errors import InputError
from footlight.sequence import step_keys as keys
from footlight.sequence.keys import Key

YES = "yes"
_CUE = re.compile(r"(.*?)\s+(\S+)")
Values = dict[tuple[str, str], str]


def inner_keys(key: Key) -> tuple[Key, ...]:
    """The keys of a key that holds a table, none for others."""
    return keys.AGITATION if key.name == "agitation" else ()


def table_of(text: str) -> dict[str, Any]:
    """What a text says. Raises InputError for one that is no TOML."""
    try:
        return tomllib.loads(text)
    except ValueError as error:
        raise InputError(f"the text is not TOML: {error}") from error


def values_of(text: str) -> Values:
    """(table, key) -> what is written there, for every key that is. Raises InputError for no TOML."""
    table = table_of(text)
    values: Values = {}
    for key in keys.HEAD:
        if key.name in table and key.name not in ("step", "trays"):
            values["", key.name] = _shown(table[key.name])
    trays, steps = table.get("trays"), table.get("step")
    for name, tray in trays.items() if isinstance(trays, dict) else ():
        values |= _of_table(f"trays.{name}", tray)
    for number, step in enumerate(steps if isinstance(steps, list) else (), start=1):
        values |= _of_table(f"step {number}", step)
    return values


def setup_values_of(text: str) -> Values:
    """The same of a light-setups file: of `lamp.NAME` and `setup.NAME`."""
    values: Values = {}
    for kind, tables in table_of(text).items():
        for name, table in tables.items() if isinstance(tables, dict) else ():
            values |= _of_table(f"{kind}.{name}", table)
    return values


def _of_table(name: str, table: Any) -> Values:
    values: Values = {}
    for key, value in table.items() if isinstance(table, dict) else ():
        if isinstance(value, dict):
            values |= {(name, f"{key}.{inner}"): _shown(written) for inner, written in value.items()}
        else:
            values[name, key] = _shown(value)
    return values


def _shown(value: Any) -> str:
    if isinstance(value, bool):
        return YES if value else ""
    if isinstance(value, list):
        return "\n".join(
            f"{one.get('at', '')} {one.get('show', '')}" for one in value if isinstance(one, dict)
        )
    return f"{value}"


def with_values(
    text: str, wanted: Mapping[tuple[str, str], str], held_in: Callable[[str], Values] = values_of
) -> str:
    """The text with these values; '' takes a key out. Only what differs is touched. held_in: what a text says
    already. Raises InputError."""
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    held = held_in(text)
    changed = {at: value for at, value in wanted.items() if value != held.get(at, "")}
    if not changed:
        return text
    try:
        document = tomlkit.parse(text)
        for (table, key), value in changed.items():
            _write(_table(document, table), key, value, table)
        return document.as_string()
    except (TOMLKitError, KeyError, IndexError) as error:
        raise InputError(f"the sequence cannot be changed at this place ({error}); do it by hand") from error


def _table(document: Any, name: str) -> Any:
    if not name:
        return document
    kind, _, rest = name.partition(" " if name.startswith("step ") else ".")
    return document[kind][int(rest) - 1 if kind == "step" else rest]


def _write(table: Any, key: str, value: str, name: str) -> None:
    import tomlkit

    outer, _, inner = key.partition(".")
    if inner:
        if outer not in table:
            table[outer] = tomlkit.inline_table()
        _write(table[outer], inner, value, name)
        if not table[outer]:
            table.remove(outer)
    elif not value:
        if key in table:
            table.remove(key)
    else:
        table[key] = _as_written(key, value, name)


def _as_written(key: str, value: str, name: str) -> Any:
    import tomlkit

    if key in ("white_light", "aside"):
        return value == YES
    if key == "sheets" and not name:
        return int(value) if value.isdecimal() and len(value) < 6 else value
    if key == "cues":
        cues = tomlkit.array()
        for line in value.splitlines():
            at, show = _cue(line)
            cue = tomlkit.inline_table()
            cue.update({"at": at, "show": show})
            cues.append(cue)
        return cues.multiline(True)
    return value.replace("\r\n", "\n")


def _cue(line: str) -> tuple[str, str]:
    """(`20 s`, `DUMP`) of `20 s DUMP`; what is no cue goes through, and is told where it is read."""
    match = _CUE.fullmatch(line.strip())
    return (match[1], match[2]) if match else (line.strip(), "")
