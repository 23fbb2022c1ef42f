"""What the strip commands have in common: where the light is, how the strip lies, and printing."""

from collections.abc import Callable
from functools import reduce, wraps
from pathlib import Path
from typing import NamedTuple, TypedDict

import click

from footlight import quantities as q
from footlight import whole_file
from footlight.cli.options import from_settings, json_option, print_json, replace_option, say
from footlight.errors import InputError
from footlight.light.setup import LightSetup
from footlight.light.strip.blade import Blade
from footlight.light.strip.build import Layout
from footlight.light.strip.plan import StripPlan
from footlight.views.table import columns
from footlight.written import light as written

LONGEST_MS = 120_000

_LIGHT = (
    click.option(
        "--setup", metavar="NAME", help="Name of the light setup; the light is then that of the setup."
    ),
    click.option(
        "--setups",
        type=click.Path(),
        default=from_settings("setups", "light-setups.toml"),
        show_default="light-setups.toml",
        metavar="FILE",
        help="The file that --setup is in.",
    ),
    click.option(
        "--toml", type=click.Path(path_type=Path), metavar="FILE", help="Write the strip as a sequence file."
    ),
    replace_option,
    json_option,
)
_LAYOUT = (
    click.option(
        "--along", metavar="LENGTH", default="254 mm", show_default=True, help="Length along the strip."
    ),
    click.option(
        "--blade",
        metavar="LENGTH",
        help="Height of the blade over the sheet; without it, a card on dry paper.",
    ),
    click.option("--axis", metavar="LENGTH", help="Lens axis from the zero end; without it, the middle."),
)
_MANNER = click.option(
    "--manner",
    type=click.Choice(["covered", "uncovered", "separate", "cut"]),
    default="covered",
    show_default=True,
    help="How the bands get their light.",
)
_STEPS = (
    click.option("--step", metavar="STOPS", help="From band to band, as '1/3 stop'."),
    click.option("--steps", type=int, metavar="N", help="How many bands, an odd number."),
)


def _decorator(*options: Callable) -> Callable[[Callable], Callable]:
    return lambda command: reduce(lambda made, option: option(made), reversed(options), command)


light_options = _decorator(*_LIGHT)
layout_options = _decorator(*_LAYOUT)
step_options = _decorator(*_STEPS)
manner_option = _MANNER


class Steps(TypedDict, total=False):
    """The steps of a strip, as far as they were given."""

    step_stops: float
    count: int


class Lit(NamedTuple):
    """The light of a strip: its centre [s], the setup, its name in a file, the lamp's longest light [ms]."""

    centre_s: float
    setup: LightSetup
    setup_name: str | None
    cap_ms: int


def read_light(text: str, setup: str | None, setups: str) -> Lit:
    """EXPOSURE, alone or with a named setup."""
    said = written.parts(text, "EXPOSURE")
    if said.seconds is None:
        raise InputError(f"EXPOSURE: '{text}' has no time; write for example '6 s, 600 mm, f/11'")
    if setup is not None and said.height_mm is None:
        from pathlib import Path

        from footlight.sequence.setups import load_setups

        placed = load_setups(Path(setups)).get(setup, "--setup")
        return Lit(said.seconds, placed.setup, setup, placed.lamp.cap_ms)
    at = written.arrangement(said, text, "EXPOSURE")
    lit = LightSetup(
        name=setup or "this light",
        lamp=at.lamp,
        lens=at.lens,
        focal_mm=at.focal_mm,
        stop=at.stop,
        height_mm=at.height_mm,
        dead_ms=said.dead_ms or 0,
        filter=at.filter,
        nd_density_d=at.nd_density_d,
        source_mm=at.source_mm,
    )
    return Lit(said.seconds, lit, setup, LONGEST_MS)


def read_layout(along: str, blade: str | None, axis: str | None) -> Layout:
    """How the strip lies."""
    return Layout(
        q.parse_length_mm(along, "--along"),
        Blade(q.parse_length_mm(blade, "--blade")) if blade else Blade(0.0),
        q.parse_length_mm(axis, "--axis") if axis else None,
    )


def read_steps(step: str | None, steps: int | None) -> Steps:
    """Only what was given, for the ready-made strips."""
    given: Steps = {}
    if step is not None:
        given["step_stops"] = q.parse_stops(step, "--step", least=0, most=2)
    if steps is not None:
        given["count"] = steps
    return given


def write_toml(toml: Path | None, lit: Lit, text: Callable[[str], str], replacing: bool) -> None:
    """Write a sequence file where one is wanted; `text` makes it from the setup's name."""
    if toml is None:
        return
    if lit.setup_name is None:
        raise InputError("--toml needs --setup: the name that the light has in the light-setups file")
    whole_file.write(toml, text(lit.setup_name), whole_file.OR_REPLACE, replacing=replacing)
    click.echo(f"written: {toml}", err=True)


def say_plan(plan: StripPlan) -> None:
    """The bands, the moves, the notes."""
    click.echo(f"{plan.name}: {plan.purpose}")
    click.echo("")
    say(columns(("band", "from", "to", "gets", "stops"), [_band(plan, n) for n in range(len(plan.bands))]))
    click.echo("")
    head = ("light", "blade at", "give", "lamp on", "reaches")
    say(columns(head, [_light(plan, n) for n in range(len(plan.lights))]), plan.notes)
    if plan.penumbra_mm:
        click.echo(f"penumbra of the blade {plan.penumbra_mm:.1f} mm; marks are corrected for parallax")


def _band(plan: StripPlan, place: int) -> tuple[str, ...]:
    band = plan.bands[place]
    name = f"{band.number}" if band.kind == "step" else f"{band.number} {band.kind}"
    stops = "" if band.stops is None else q.format_stops(round(band.stops, 6))
    return name, f"{band.start_mm:.0f}", f"{band.end_mm:.0f} mm", q.format_seconds(band.total_s), stops


def _light(plan: StripPlan, place: int) -> tuple[str, ...]:
    light = plan.lights[place]
    mark = "" if light.mark_mm is None else f"{light.mark_mm:.1f} mm"
    first, last = light.lit[0], light.lit[-1]
    reached = f"band {first}" if first == last else f"bands {first} to {last}"
    on = f"{plan.lamp_on_s(light):.2f} s"
    return f"{light.number}", mark, f"{light.seconds:.2f} s", on, reached


def planned(plan_of: Callable[..., StripPlan]) -> Callable[..., None]:
    """Make a command's body of a function of (lit, layout, its own options) that returns a plan.

    Adds EXPOSURE and the options of layout and light, prints the plan, and writes it where that is wanted.
    """

    @light_options
    @layout_options
    @click.argument("exposure")
    @wraps(plan_of)
    def body(
        exposure: str,
        along: str,
        blade: str | None,
        axis: str | None,
        setup: str | None,
        setups: str,
        toml: Path | None,
        replace: bool,
        as_json: bool,
        **own,
    ) -> None:
        lit = read_light(exposure, setup, setups)
        plan = plan_of(lit, read_layout(along, blade, axis), **own)
        if as_json:
            print_json(plan.as_dict())
        else:
            say_plan(plan)
        write_toml(toml, lit, lambda name: _toml(plan, name, lit.cap_ms), replace)

    return body


def _toml(plan: StripPlan, setup_name: str, cap_ms: int) -> str:
    from footlight.sequence.strip_file import strip_to_toml

    return strip_to_toml(plan, setup_name, cap_ms=cap_ms)
