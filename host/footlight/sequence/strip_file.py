"""A strip plan as the text of a sequence file: its lights, and a cue for each move of the blade.

The controller gives the lights one by one; between them a step by hand, begun by itself, shows where the
blade goes ('TO 3' is mark 3). Blade marks, bands and what they get stand in comments at the head, to be
printed with the file.
"""

import json
from collections.abc import Iterable

from footlight.errors import InputError
from footlight.light.setup import LightSetup
from footlight.light.strip.fog import FogTest
from footlight.light.strip.plan import Band, Light, StripPlan
from footlight.light.strip.ready import CrossedStrip
from footlight.quantities import format_duration, format_length_mm, format_stop
from footlight_core.program import LIGHT_CAP_MS, MAX_STEPS

_MOVE_MS = 8_000
Pairs = list[tuple[str, str]]


def strip_to_toml(
    plan: StripPlan,
    setup_name: str,
    *,
    title: str = "STRIP",
    cap_ms: int = LIGHT_CAP_MS,
    move_ms: int = _MOVE_MS,
) -> str:
    """The sequence file of a strip.

    setup_name: the light setup as the light-setups file calls it. title: on the display, six characters.
    cap_ms: the longest light that the lamp may give in one go [ms]; longer ones are given in parts.
    move_ms: time for a move of the blade [ms]. Raises `InputError` for more steps than the controller holds.
    """
    lights = _lights(plan, setup_name, cap_ms, move_ms)
    return _file(title, f"strip, {plan.name}", plan.purpose, _bands_table(plan), lights)


def crossed_to_toml(
    both: CrossedStrip,
    first_setup: str,
    second_setup: str,
    *,
    title: str = "CROSS",
    cap_ms: int = LIGHT_CAP_MS,
) -> str:
    """The sequence file of a crossed strip: first exposures, a pause for the process, second exposures."""
    first = _lights(both.first, first_setup, cap_ms, _MOVE_MS, prefix="1st ")
    between = _pause(
        "process to the second", "BATHS", "first developer, rinse, bleach, clear, rinse; then the tray"
    )
    second = _lights(both.second, second_setup, cap_ms, _MOVE_MS, prefix="2nd ")
    rows = [f"lengthwise band {n}: {name}" for n, name in enumerate(both.row_names)]
    head = [*rows, *_bands_table(both.first), "across:", *_bands_table(both.second)]
    return _file(title, "crossed strip", both.second.purpose, head, [*first, between, *second])


def fog_to_toml(test: FogTest, setup_name: str, *, title: str = "FOG") -> str:
    """The sequence file of a safelight fog test; the safelight itself is switched by hand."""
    wait_bands = [
        f"band {number}: {format_duration(round(total * 1000))}" for number, total in enumerate(test.totals_s)
    ]
    steps = [_pause("all dark", "DARK", "safelight and every display off or covered; lay the sheet down")]
    if test.pre_exposure_s is not None:
        steps += [_pre_exposure(test, setup_name, "first half", "cover the second half, lengthwise")]
    steps.append(
        _pause("safelight on", "SAFE", "band 0 covered by an opaque card; press as the safelight goes on")
    )
    steps += [_wait(test, number) for number in range(len(test.waits))]
    steps.append(_pause("safelight off", "DARK", "process in darkness from here on"))
    if test.pre_exposure_s is not None:
        steps += [_pre_exposure(test, setup_name, "second half", "cover the first half, lengthwise")]
    about = f"safelight fog test {test.stage}: fog shows as {test.shows_as}; safe is what looks like band 0"
    return _file(title, "safelight fog test", about, wait_bands, steps)


def _lights(plan: StripPlan, setup_name: str, cap_ms: int, move_ms: int, prefix: str = "") -> list[Pairs]:
    """Every light, in parts where it is too long, with a move before each but where the blade stays."""
    steps: list[Pairs] = []
    if cap_ms <= plan.setup.dead_ms:
        raise InputError(
            f"strip: a longest light of {cap_ms} ms is no longer than the dead time; see the lamp's cap"
        )
    previous: Light | None = None
    for light in plan.lights:
        steps += _move(plan, light, previous, move_ms, prefix)
        steps += _one_light(plan, light, setup_name, cap_ms - plan.setup.dead_ms, prefix)
        previous = light
    return steps


def _move(plan: StripPlan, light: Light, previous: Light | None, move_ms: int, prefix: str) -> list[Pairs]:
    if plan.manner == "cut":
        piece = light.lit[0]
        return [_pause(f"{prefix}piece {piece}", f"NO {piece}", f"lay down piece {piece} alone")]
    if previous is not None and previous.lit == light.lit:
        return []
    mark = light.lit[0]
    where = f"{'slot' if plan.manner == 'separate' else 'blade'} at {_place(light)} from the zero end"
    if previous is None:
        return [_pause(f"{prefix}to mark {mark}", f"TO {mark}", where)]
    return [
        [
            ("kind", _text("by hand")),
            ("name", _text(f"{prefix}to mark {mark}")),
            ("show", _text(f"TO {mark}")),
            ("after", _text("auto")),
            ("time", _text(format_duration(move_ms))),
            ("cues", f'[{{ at = "0 s", show = {_text(f"TO {mark}")} }}]'),
            ("note", _text(where)),
        ]
    ]


def _place(light: Light) -> str:
    return f"{light.mark_mm:.1f} mm" if light.mark_mm is not None else "its first place"


def _one_light(plan: StripPlan, light: Light, setup_name: str, most_ms: int, prefix: str) -> list[Pairs]:
    parts = _parts_ms(light.duration_ms, most_ms)
    count = len(plan.lights)
    made = []
    for number, part_ms in enumerate(parts, start=1):
        part = f", part {number}/{len(parts)}" if len(parts) > 1 else ""
        made.append(
            [
                ("kind", _text("light")),
                ("name", _text(f"{prefix}light {light.number}/{count}{part}")),
                ("show", _text(f"{light.number}/{count}")),
                ("setup", _text(setup_name)),
                *_where(plan.setup),
                ("time", _text(format_duration(part_ms))),
                ("note", _text(f"reaches {_reached(light)}")),
            ]
        )
    return made


def _parts_ms(duration_ms: int, most_ms: int) -> list[int]:
    """A duration [ms] in as few near-equal parts as fit below `most_ms` [ms]."""
    count = -(-duration_ms // most_ms)
    return [duration_ms * (place + 1) // count - duration_ms * place // count for place in range(count)]


def _where(setup: LightSetup) -> Pairs:
    """Height and stop that the plan was made for, so that the file says the same whatever the setup says."""
    pairs = [("height", _text(f"{setup.height_mm:g} mm"))]
    return pairs + ([("stop", _text(format_stop(setup.stop)))] if setup.stop else [])


def _reached(light: Light) -> str:
    first, last = light.lit[0], light.lit[-1]
    return f"band {first}" if first == last else f"bands {first} to {last}"


def _pre_exposure(test: FogTest, setup_name: str, half: str, note: str) -> Pairs:
    assert test.pre_exposure_s is not None
    return [
        ("kind", _text("light")),
        ("name", _text(f"grey, {half}")),
        ("show", _text("GREY")),
        ("setup", _text(setup_name)),
        *_where(test.setup),
        ("time", _text(format_duration(round(test.pre_exposure_s * 1000)))),
        ("note", _text(note)),
    ]


def _wait(test: FogTest, place: int) -> Pairs:
    wait = test.waits[place]
    cue = [("cues", f'[{{ at = "0 s", show = {_text(f"TO {wait.number}")} }}]')]
    return [
        ("kind", _text("by hand")),
        ("name", _text(f"wait, card at {wait.number}")),
        ("show", _text(f"TO {wait.number}")),
        ("after", _text("auto" if place else "pedal")),
        ("time", _text(format_duration(wait.duration_ms))),
        *cue,
        ("note", _text(f"card {format_length_mm(wait.mark_mm)} from the zero end, then wait")),
    ]


def _pause(name: str, show: str, note: str) -> Pairs:
    return [("kind", _text("pause")), ("name", _text(name)), ("show", _text(show)), ("note", _text(note))]


def _bands_table(plan: StripPlan) -> list[str]:
    lines = [_band_line(band) for band in plan.bands]
    marks = [f"mark {light.lit[0]}: {_place(light)}" for light in plan.lights if light.mark_mm is not None]
    return [*lines, *sorted(set(marks), key=marks.index), *plan.notes]


def _band_line(band: Band) -> str:
    stops = "" if band.stops is None else f", {band.stops:+.2f} stop"
    kind = "" if band.kind == "step" else f" ({band.kind})"
    return f"band {band.number}{kind}: {format_duration(round(band.total_s * 1000))} of light{stops}"


def _file(title: str, name: str, about: str, head: Iterable[str], steps: list[Pairs]) -> str:
    if len(steps) > MAX_STEPS:
        raise InputError(
            f"strip: {len(steps)} steps with its moves; the controller holds {MAX_STEPS}: take fewer bands"
        )
    lines = [*(f"# {line}" for line in head), ""]
    lines += [f"title = {_text(title)}", f"name = {_text(name[:24].strip())}", f"about = {_text(about)}"]
    for step in steps:
        lines += ["", "[[step]]", *(f"{key} = {value}" for key, value in step)]
    return "\n".join(lines) + "\n"


def _text(value: str) -> str:
    """A TOML basic string; JSON's escapes are a part of TOML's."""
    return json.dumps(value, ensure_ascii=False)
