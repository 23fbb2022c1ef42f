"""Which lights of a sequence made a strip, and which bands each of them reached: `strip_file` read back.

A file that the tool wrote says in each light's note which bands it reaches. One that was written by hand says
nothing that could be relied on: there the manner does, and whoever asks must say so.
"""

import re
import tomllib
from dataclasses import dataclass
from typing import Any

from footlight.errors import InputError, field
from footlight.light.strip.plan import Manner

LEAST_LIGHTS = 3
_REACHES = re.compile(r"reaches bands? (\d+)(?: to (\d+))?")
_MOVE = re.compile(r"(TO|NO) \d+")


@dataclass(frozen=True)
class StripLight:
    """A light of a strip: its step, light setup, height and stop where the step gives its own, its bands.

    first, last: bands that it reaches, zero being 0.
    """

    step: int
    setup: str
    height: str
    stop: str
    first: int
    last: int


@dataclass(frozen=True)
class StripLights:
    """The lights of one strip in order. as_noted: the notes said which bands; else the manner did."""

    lights: tuple[StripLight, ...]
    as_noted: bool

    @property
    def bands(self) -> int:
        """How many, the zero band included."""
        return 1 + max(light.last for light in self.lights)


def strip_lights(source: str, manner: Manner) -> list[StripLights]:
    """The strips in a sequence file's text, in order: three lights or more with only moves between them.

    manner: how the bands got their light, where the notes do not say. Raises InputError for no sequence.
    """
    groups: list[list[tuple[int, dict[str, Any]]]] = [[]]
    for number, step in enumerate(_steps(source), start=1):
        if step.get("kind") == "light":
            groups[-1].append((number, step))
        elif not _MOVE.fullmatch(str(step.get("show", ""))):
            groups.append([])
    return [_strip(group, manner) for group in groups if len(group) >= LEAST_LIGHTS]


def _steps(source: str) -> list[dict[str, Any]]:
    try:
        steps = tomllib.loads(source).get("step", [])
    except ValueError as error:
        raise InputError(
            f"the sequence as it was sent is no TOML ({error}); give {field('doses')}"
        ) from error
    return [step for step in steps if isinstance(step, dict)]


def _strip(group: list[tuple[int, dict[str, Any]]], manner: Manner) -> StripLights:
    noted = [_REACHES.search(str(step.get("note", ""))) for _, step in group]
    count = len(group)
    lights = []
    for place, ((number, step), found) in enumerate(zip(group, noted, strict=True), start=1):
        first, last = _by_manner(place, count, manner)
        if all(noted) and found:
            first, last = int(found[1]), int(found[2] or found[1])
        setup, height, stop = (str(step.get(key, "")) for key in ("setup", "height", "stop"))
        lights.append(StripLight(number, setup, height, stop, first, last))
    return StripLights(tuple(lights), all(noted))


def _by_manner(place: int, count: int, manner: Manner) -> tuple[int, int]:
    if manner in ("separate", "cut"):
        return place, place
    return (place, count) if manner == "covered" else (count - place + 1, count)
