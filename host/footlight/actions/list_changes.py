"""What has changed since a print was made: baths, paper, references, firmware, the setups at hand."""

import math
import sqlite3
from collections.abc import Iterable, Mapping
from pathlib import Path

from footlight import quantities as q
from footlight import sequence
from footlight.errors import InputError
from footlight.light.setup import LightSetup
from footlight.notebook.dates import When, date_text
from footlight.notebook.sheets.by_number import RunPart, Story
from footlight.notebook.sheets.print_source import Sent
from footlight.notebook.stock import baths, papers, since
from footlight.notebook.stock.baths import Bath
from footlight.notebook.stock.papers import Batch
from footlight.sequence.step_keys import SETUPS_FILE
from footlight_core.program import LIGHT

_TOLD_STOPS = 0.02
_KINDS = {"speed": "speed, exposure index", "pre-flash": "pre-flash", "second": "second exposure"}


def facts(
    connection: sqlite3.Connection,
    story: Story,
    part: RunPart,
    kept: Sent,
    now: sequence.Compiled,
    paper: str | None,
    now_s: int,
) -> list[str]:
    """A sentence each; nothing where all is as it was. now: the sequence of then, compiled today."""
    return [
        *_compiled(kept, now),
        *_baths(connection, now.sequence, part.when, now_s),
        *_paper(connection, papers.of_sheet(connection, story.sheet_id), _batch_now(connection, now, paper)),
        *_references(connection, now.sequence, kept),
        *_firmware(connection, story, part),
    ]


def setups_here(then: sequence.Sequence, folder: Path, written: Iterable[Path]) -> list[str]:
    """How the light setups that lie in the folder differ from those of then."""
    path = folder / SETUPS_FILE
    if not path.is_file() or path in written or not then.setups_used:
        return []
    try:
        here = sequence.load_setups(path)
    except InputError as error:
        return [f"{error}: it was not held against the light setups of then"]
    told = []
    for old in then.setups_used:
        new = here.setups.get(old.name)
        told += [f"{path}: light setup '{old.name}' is no longer in it"] if new is None else []
        differences = _differences(old, new.setup) if new else []
        told += [f"{path}: light setup '{old.name}': {difference}" for difference in differences]
    return told


def _compiled(kept: Sent, now: sequence.Compiled) -> list[str]:
    """Light times that come out otherwise today: other light setups, or another version of the tool."""
    if now.sha256 == kept.sha256:
        return []
    pairs = zip(kept.program["steps"], now.program["steps"], strict=True)
    told = [
        f"'{old['name']}' comes to {_seconds(new['time_ms'])} today, {_seconds(old['time_ms'])} then"
        for old, new in pairs
        if old["kind"] == LIGHT and old["time_ms"] != new["time_ms"]
    ]
    return told or ["the same file compiles to another program today, with the same light"]


def _seconds(ms: int) -> str:
    return f"{ms / 1000:.2f} s"


def _baths(connection: sqlite3.Connection, then: sequence.Sequence, when: When, now_s: int) -> list[str]:
    known = baths.every(connection)
    names = [tray.name for tray in then.trays if any(baths.same_name(tray.name, bath.name) for bath in known)]
    at_s = when.to_unix_s if when.to_unix_s is not None else when.from_unix_s
    if names and at_s is None:
        return ["its date is not known, so neither are the baths that it went through"]
    return [
        _bath(name, since.bath_at(known, name, at_s), since.bath_at(known, name, now_s), at_s, now_s)
        for name in names
        if at_s is not None
    ]


def _bath(name: str, then: Bath | None, now: Bath | None, at_s: int, now_s: int) -> str:
    was = f"{q.format_age_h(then.age_h(at_s))} old then" if then else "not written down then"
    if now is None:
        return f"{name}: {was}; none is mixed now: mix fresh"
    age = q.format_age_h(now.age_h(now_s))
    if then is not None and now.id == then.id:
        return f"{name}: the same bath, {was}, {age} now"
    return f"{name}: another bath, mixed {date_text(now.mixed_unix_s)}, {age} old; {was}"


def _batch_now(connection: sqlite3.Connection, now: sequence.Compiled, name: str | None) -> Batch | None:
    if name is not None:
        return papers.find(connection, name)
    size = now.sequence.sheet
    return papers.in_use(connection, papers.sides_of(size.name) if size else None)


def _paper(connection: sqlite3.Connection, then: Batch | None, now: Batch | None) -> list[str]:
    if now is None or (then is not None and then.id == now.id):
        return []
    if then is None:
        return [f"paper: which batch that sheet was is not written down; now it is {_named(now)}"]
    same = "another batch of the same paper" if then.paper == now.paper else "another paper"
    differences = _findings(then.name, now.name, _found(connection, then), _found(connection, now))
    return [f"paper: {_named(now)}, {same}; then {_named(then)}", *differences]


def _named(batch: Batch) -> str:
    return f"batch {batch.name} ({batch.paper}, {batch.size})"


def _found(connection: sqlite3.Connection, batch: Batch) -> dict[str, float]:
    findings = papers.findings(connection, batch)
    return {finding.kind: finding.value for finding in findings if finding.value is not None}


def _findings(then: str, now: str, old: Mapping[str, float], new: Mapping[str, float]) -> list[str]:
    """What was found out about both papers, and how they differ."""
    told = []
    for kind, words in _KINDS.items():
        if kind in old and kind in new:
            told += _difference(kind, words, old[kind], new[kind])
        elif kind in old or kind in new:
            told.append(f"{words}: found for batch {then if kind in old else now} only; make a strip")
    return told


def _difference(kind: str, words: str, old: float, new: float) -> list[str]:
    if kind == "speed":
        stops = math.log2(old / new)
        text = f"{words} {new:g}, then {old:g}: {q.format_stops(stops)} in the camera"
    else:
        stops = new - old
        text = f"{words}: this batch wants {q.format_stops(stops)} from what that one had"
    return [text] if abs(stops) >= _TOLD_STOPS else []


def _references(connection: sqlite3.Connection, then: sequence.Sequence, kept: Sent) -> list[str]:
    names = [setup.name for setup in then.setups_used]
    return [
        f"light setup '{entry.setup}': reference accepted anew {date_text(entry.done_unix_s)}:"
        f" {entry.before or 'none'} → {entry.after}; the repeat keeps that of then"
        for entry in since.accepted_since(connection, names, kept.stored_unix_s)
    ]


def _firmware(connection: sqlite3.Connection, story: Story, part: RunPart) -> list[str]:
    then = since.build_of_run(connection, story.controller, story.epoch, part.run)
    now = since.build_now(connection, story.controller)
    return [] if then is None or now is None or then == now else [f"firmware: build {now}, then {then}"]


def _differences(old: LightSetup, new: LightSetup) -> list[str]:
    rows = (
        ("height", q.format_length_mm(old.height_mm), q.format_length_mm(new.height_mm)),
        ("stop", f"{old.stop or 'none'}", f"{new.stop or 'none'}"),
        ("lens", old.lens or "none", new.lens or "none"),
        ("filter", old.filter or "none", new.filter or "none"),
        ("dead time", f"{old.dead_ms} ms", f"{new.dead_ms} ms"),
        ("reference", _reference(old), _reference(new)),
    )
    return [f"{what} {now}, then {then}" for what, then, now in rows if then != now]


def _reference(setup: LightSetup) -> str:
    reference = setup.reference
    if reference is None:
        return "none"
    return f"{q.format_seconds(reference.seconds)} at {setup.arranged(reference.height_mm, reference.stop)}"
