"""`footlight light strip fog`"""

from pathlib import Path

import click

from footlight import quantities as q
from footlight.cli.light.strip import shared as strips
from footlight.cli.options import print_json, say
from footlight.light.strip.fog import WAITS_MIN, FogTest, Stage, fog_test
from footlight.views.table import columns

_STAGES: dict[str, Stage] = {"before": "before first developer", "after-bleach": "after the bleach"}
_USUAL = " ".join(f"'{minutes:g} min'" for minutes in WAITS_MIN)


@click.command
@click.argument("exposure")
@click.option("--stage", type=click.Choice(list(_STAGES)), required=True, help="When in the process.")
@click.option(
    "--wait", "waits", multiple=True, metavar="TIME", help=f"A band's time, again for each. Usual: {_USUAL}."
)
@click.option(
    "--along", metavar="LENGTH", default="254 mm", show_default=True, help="Length along the strip."
)
@strips.light_options
def command(
    exposure: str,
    stage: str,
    waits: tuple[str, ...],
    along: str,
    setup: str | None,
    setups: str,
    toml: Path | None,
    replace: bool,
    as_json: bool,
) -> None:
    """How long is the safelight safe? Make the test twice: it is not the same before and after the bleach.

    EXPOSURE is a pre-exposure to mid-grey (D 0.25 to 0.50), given to one half before the waits and to the
    other after them; after the bleach there is none, and EXPOSURE only names the light. Keep every other
    light off, the controller's display covered, and process in darkness. Read the bands and ask
    `footlight light fog`.

    \b
        footlight light strip fog "2 s, 900 mm, f/16, lens 80 mm" --stage before
        footlight light strip fog "2 s, 900 mm, f/16, lens 80 mm" --stage after-bleach
    """
    lit = strips.read_light(exposure, setup, setups)
    given = [q.parse_seconds(wait, f"--wait {number}") / 60 for number, wait in enumerate(waits, start=1)]
    test = fog_test(
        _STAGES[stage],
        lit.setup,
        q.parse_length_mm(along, "--along"),
        pre_exposure_s=lit.centre_s if stage == "before" else None,
        waits_min=given or WAITS_MIN,
    )
    if as_json:
        print_json(test.as_dict())
    else:
        _say(test)
    strips.write_toml(toml, lit, lambda name: _toml(test, name), replace)


def _say(test: FogTest) -> None:
    click.echo(
        f"safelight fog test {test.stage}: fog shows as {test.shows_as}; {test.minutes:.0f} minutes in all"
    )
    if test.pre_exposure_s is not None:
        grey = q.format_seconds(test.pre_exposure_s)
        click.echo(f"in the dark: {grey} at {test.setup.here} on the first half (lengthwise)")
    click.echo("safelight on, band 0 covered")
    rows = [
        (f"{wait.number}", f"{wait.mark_mm:.0f} mm", q.format_duration(wait.duration_ms))
        for wait in test.waits
    ]
    say(columns(("wait", "card at", "for"), rows))
    click.echo("safelight off; process in darkness" if test.pre_exposure_s is None else _after(test))


def _after(test: FogTest) -> str:
    grey = q.format_seconds(test.pre_exposure_s or 0)
    return f"safelight off; {grey} on the second half; process in darkness"


def _toml(test: FogTest, name: str) -> str:
    from footlight.sequence.strip_file import fog_to_toml

    return fog_to_toml(test, name)
