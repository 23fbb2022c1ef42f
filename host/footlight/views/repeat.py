"""How a repeat is told: what it is, what is otherwise, what has changed since, what comes next."""

import math
from typing import Any

from footlight import quantities as q
from footlight.actions.repeat_print import Repeat
from footlight.sequence import Arithmetic
from footlight.views.controller import delivery_line
from footlight.views.times import when_text


def repeat_lines(repeat: Repeat) -> list[str]:
    """For a person."""
    part = repeat.part
    head = f"Print {repeat.story.number}: {repeat.kept.name}, {when_text(part.when)}, run {part.run}"
    return [
        head,
        *_section("Light", [*_lights(repeat), *repeat.notes]),
        *_section("Since then", repeat.since or ["nothing that the notebook knows of has changed"]),
        *_section("Mind", [*repeat.after.warnings, *repeat.baths]),
        "",
        *(f"{path} is written" for path in repeat.written),
        _next(repeat),
    ]


def repeat_dict(repeat: Repeat) -> dict[str, Any]:
    """For a script."""
    return {
        "print": repeat.story.number,
        "run": repeat.part.run,
        "sha256_then": repeat.kept.sha256,
        "sha256": repeat.after.sha256,
        "is_same_program": repeat.kept.sha256 == repeat.after.sha256,
        "lights": [_light_dict(repeat, light) for light in repeat.after.arithmetic],
        "notes": list(repeat.notes),
        "since": list(repeat.since),
        "warnings": repeat.after.warnings,
        "baths": list(repeat.baths),
        "written": [f"{path}" for path in repeat.written],
        "slot": repeat.delivery.slot if repeat.delivery else None,
    }


def _section(title: str, told: Any) -> list[str]:
    indented = [f"  {line}" for line in told]
    return ["", title, *indented] if indented else []


def _lights(repeat: Repeat) -> list[str]:
    """Each light with its arithmetic; what it was where it is another one now."""
    told = []
    for light in repeat.after.arithmetic:
        was_ms = _was_ms(repeat, light)
        was = f" (then {q.format_seconds(was_ms / 1000)})" if was_ms != light.time_ms else ", as then"
        told.append(f"{light.step_number} '{light.name}': {light.text}{was}")
    return told


def _was_ms(repeat: Repeat, light: Arithmetic) -> int:
    return repeat.kept.program["steps"][light.step_number - 1]["time_ms"]


def _light_dict(repeat: Repeat, light: Arithmetic) -> dict[str, Any]:
    was_ms = _was_ms(repeat, light)
    return light.as_dict() | {
        "name": light.name,
        "time_ms_then": was_ms,
        "time_stops": round(math.log2(light.time_ms / was_ms), 4),
    }


def _next(repeat: Repeat) -> str:
    if repeat.delivery:
        return delivery_line(repeat.delivery)
    return f"Next: footlight send {repeat.after.sequence.path}"
