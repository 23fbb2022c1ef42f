"""A checked sequence -> the program that the controller stores, always the same bytes for the same file."""

import hashlib
import json
from dataclasses import dataclass
from typing import Any, assert_never

from footlight.errors import InputError
from footlight.quantities import format_duration
from footlight.sequence import model
from footlight.sequence.exposures import Arithmetic, light_of
from footlight.sequence.refusals import in_words
from footlight.sequence.shown import shown_stop
from footlight.sequence.warnings import warnings_of
from footlight_core import program
from footlight_core.errors import ProgramError


@dataclass(frozen=True)
class Compiled:
    """A program. program: as the controller decodes it, every default filled in. data: the bytes to send.
    sha256: of these bytes, 64 hex digits. arithmetic: one for each light step. warnings: a sentence each."""

    sequence: model.Sequence
    program: dict[str, Any]
    data: bytes
    sha256: str
    arithmetic: list[Arithmetic]
    warnings: list[str]

    def light_at(self, step_number: int) -> Arithmetic | None:
        """The arithmetic of a step, None where it is no light."""
        return next((light for light in self.arithmetic if light.step_number == step_number), None)


def compile(sequence: model.Sequence) -> Compiled:  # noqa: A001 - the trade's own word
    """The program of a sequence.

    Raises InputError for a light that the lamp may not give, a setup that cannot tell a time, and a
    program that is too long for the controller.
    """
    lights = [
        light_of(step, sequence.places[step.number])
        for step in sequence.steps
        if isinstance(step, model.Light)
    ]
    raw = _raw(sequence, {light.step_number: light.time_ms for light in lights})
    data = json.dumps(raw, sort_keys=True, separators=(",", ":"), ensure_ascii=True).encode("ascii")
    if len(data) > program.MAX_BYTES:
        raise InputError(
            f"{sequence.path}: {len(data)} bytes as a program; the controller holds {program.MAX_BYTES}:"
            " split it into two sequences"
        )
    try:
        checked = program.parse(data)
    except ProgramError as error:
        raise in_words(error, sequence) from None
    sha256 = hashlib.sha256(data).hexdigest()
    return Compiled(sequence, checked, data, sha256, lights, warnings_of(sequence, checked, lights))


def _raw(sequence: model.Sequence, light_ms: dict[int, int]) -> dict[str, Any]:
    lamps = _lamps(sequence)
    steps = [
        _without_defaults(step.core_kind, {**_common(step), **_own(step, lamps, light_ms, sequence)})
        for step in sequence.steps
    ]
    return {
        "v": program.VERSION,
        "title": sequence.title,
        "name": sequence.name,
        "sheets": sequence.sheets,
        "lamps": [{"name": lamp.show, "cap_ms": lamp.cap_ms, "window_ms": lamp.window_ms} for lamp in lamps],
        "steps": steps,
    }


def _lamps(sequence: model.Sequence) -> list[model.Lamp]:
    """The lamps in use, in the order of their first light."""
    used = {step.placed.lamp: None for step in sequence.steps if isinstance(step, model.Light)}
    if len(used) > program.MAX_LAMPS:
        raise InputError(
            f"{sequence.path}: {len(used)} lamps; the controller holds {program.MAX_LAMPS} in one sequence"
        )
    return list(used)


def _without_defaults(kind: str, raw: dict[str, Any]) -> dict[str, Any]:
    """Bytes are scarce on the controller: it fills in defaults itself."""
    defaults = {rule[0]: rule[4] for rule in program.kind_of({"kind": kind}).rules}
    return {key: value for key, value in raw.items() if value != defaults[key] and value != []}


def _common(step: model.AnyStep) -> dict[str, Any]:
    return {
        "kind": step.core_kind,
        "name": step.name,
        "show": step.show,
        "auto": int(step.auto),
        "white": int(step.white),
    }


def _own(
    step: model.AnyStep, lamps: list[model.Lamp], light_ms: dict[int, int], sequence: model.Sequence
) -> dict[str, Any]:
    match step:
        case model.Light():
            _check_caps(step, light_ms[step.number], sequence.places[step.number])
            return _light(step, lamps.index(step.placed.lamp), light_ms[step.number])
        case model.Bath():
            return {**_tray(step.tray), **_bath(step)}
        case model.ByHand():
            cues = [[cue.at_ms, cue.show] for cue in step.cues]
            return {**_tray_if_any(step.tray), "time_ms": step.time_ms, "cues": cues}
        case model.UntilPressed():
            return {**_tray_if_any(step.tray), "least_ms": step.least_ms, "most_ms": step.most_ms}
        case model.Pause():
            return {}
        case _:
            assert_never(step)


def _tray(tray: model.Tray) -> dict[str, Any]:
    return {"place": tray.place, "tongs": tray.tongs}


def _tray_if_any(tray: model.Tray | None) -> dict[str, Any]:
    return _tray(tray) if tray else {"dry": 1}


def _bath(step: model.Bath) -> dict[str, Any]:
    return {
        "time_ms": step.time_ms,
        "lift_ms": step.lift_ms,
        "stir_first_ms": step.agitation.first_ms,
        "stir_every_ms": step.agitation.every_ms,
        "stir_for_ms": step.agitation.for_ms,
        "aside": int(step.aside),
    }


def _light(step: model.Light, lamp_index: int, time_ms: int) -> dict[str, Any]:
    setup = step.placed.setup
    return {
        "time_ms": time_ms,
        "dead_ms": setup.dead_ms,
        "least_ms": step.placed.lamp.least_ms,
        "lamp": lamp_index,
        "lens": step.placed.lens,
        "stop": shown_stop(setup.stop).upper(),
        "height_mm": round(setup.height_mm),
        "settle_ms": step.settle_ms,
    }


def _check_caps(step: model.Light, time_ms: int, what: str) -> None:
    """The lamp's own limits, in words that say what to do; the controller checks them again."""
    lamp, dead_ms = step.placed.lamp, step.placed.setup.dead_ms
    gate_ms = time_ms + dead_ms
    limits = ((lamp.cap_ms, "cap"), (lamp.window_ms, "ten_minute_limit"))
    for most_ms, key in limits:
        if gate_ms > most_ms:
            raise InputError(
                f"{what}: a light of {format_duration(gate_ms)} with its dead time; lamp '{lamp.name}' has"
                f" {key} = {format_duration(most_ms)}: open the lens, go lower, or split the light"
            )
    if time_ms < lamp.least_ms:
        raise InputError(
            f"{what}: a light of {format_duration(time_ms)}; lamp '{lamp.name}' has least ="
            f" {format_duration(lamp.least_ms)}: stop down or go higher"
        )
