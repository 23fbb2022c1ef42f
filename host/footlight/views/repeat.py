"""How a repeat is told: what it is, what is otherwise, what has changed since, what comes next."""

import math
from typing import Any

from footlight import quantities as q
from footlight.cli.again.making import Made
from footlight.sequence import Arithmetic
from footlight.views.times import when_text


def lines(made: Made) -> list[str]:
    """For a person."""
    part = made.part
    head = f"Print {made.story.number}: {made.kept.name}, {when_text(part.when)}, run {part.run}"
    return [
        head,
        *_section("Light", [*_lights(made), *made.notes]),
        *_section("Since then", made.since or ["nothing that the notebook knows of has changed"]),
        *_section("Mind", [*made.after.warnings, *made.baths]),
        "",
        *(f"{path} is written" for path in made.written),
        _next(made),
    ]


def as_dict(made: Made) -> dict[str, Any]:
    """For a script."""
    return {
        "print": made.story.number,
        "run": made.part.run,
        "sha256_then": made.kept.sha256,
        "sha256": made.after.sha256,
        "is_same_program": made.kept.sha256 == made.after.sha256,
        "lights": [_light_dict(made, light) for light in made.after.arithmetic],
        "notes": list(made.notes),
        "since": list(made.since),
        "warnings": made.after.warnings,
        "baths": list(made.baths),
        "written": [f"{path}" for path in made.written],
        "slot": made.sent.slot if made.sent else None,
    }


def _section(title: str, told: Any) -> list[str]:
    found = [f"  {line}" for line in told]
    return ["", title, *found] if found else []


def _lights(made: Made) -> list[str]:
    """Each light with its arithmetic; what it was where it is another one now."""
    told = []
    for light in made.after.arithmetic:
        was_ms = _was_ms(made, light)
        was = f" (then {q.format_seconds(was_ms / 1000)})" if was_ms != light.time_ms else ", as then"
        told.append(f"{light.step_number} '{light.name}': {light.text}{was}")
    return told


def _was_ms(made: Made, light: Arithmetic) -> int:
    return made.kept.program["steps"][light.step_number - 1]["time_ms"]


def _light_dict(made: Made, light: Arithmetic) -> dict[str, Any]:
    was_ms = _was_ms(made, light)
    return light.as_dict() | {
        "name": light.name,
        "time_ms_then": was_ms,
        "time_stops": round(math.log2(light.time_ms / was_ms), 4),
    }


def _next(made: Made) -> str:
    if made.sent:
        already = "" if made.sent.moved_bytes else " already"
        return f"{made.sent.title} is in slot {made.sent.slot}{already}, hash {made.sent.sha256[:8]}"
    return f"Next: footlight send {made.after.sequence.path}"
