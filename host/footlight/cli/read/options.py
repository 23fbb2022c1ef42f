"""The doses of a strip, as they were really given or as they were planned."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight import quantities as q
from footlight.cli.options import from_settings, notebook_option
from footlight.errors import InputError
from footlight.light.strip import steps as plan

if TYPE_CHECKING:
    from footlight.cli.read.given import Given


@dataclass(frozen=True)
class Dosed:
    """The doses of a strip. totals_s: zero first, anchor last [s]. given: what the notebook told, if it did.

    sheet_id: the sheet that the reading is kept with, None for none.
    """

    present_s: float
    totals_s: tuple[float, ...]
    given: "Given | None" = None
    sheet_id: int | None = None

    @property
    def hidden(self) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """Least and most where a power cut hid some light, else empty [s]."""
        if self.given is None or not self.given.is_hidden:
            return (), ()
        return self.given.taken.least_s, self.given.taken.most_s


def options(function: Callable) -> Callable:
    """Where the doses come from: `--sheet`, or `--present` and either `--doses` or `--centre` and so on."""
    return _with(function, (*_FROM, _PRESENT, *_typed("1 stop", 7, "zero and anchor too"), notebook_option))


def flash_options(count: int) -> Callable[[Callable], Callable]:
    """The same for a strip of flashes, which has no anchor and goes in half stops."""
    typed = _typed("1/2 stop", count, "the step without flash too")
    return lambda function: _with(function, (*_FROM, *typed, notebook_option))


def _with(function: Callable, options: tuple[Callable, ...]) -> Callable:
    for option in reversed(options):
        function = option(function)
    return function


_FROM = (
    click.option(
        "--sheet",
        type=click.IntRange(1),
        metavar="N",
        help="The strip's sheet: take its doses as they were given from the notebook, and keep the reading.",
    ),
    click.option("--controller", help="Which controller's, if several have a sheet of that number."),
    click.option("--run", type=click.IntRange(1), help="Which run of the sheet; without it, its last strip."),
    click.option(
        "--manner",
        type=click.Choice(["covered", "uncovered", "separate", "cut"]),
        default="covered",
        show_default=True,
        help="How the bands got their light, where the sequence's notes do not say.",
    ),
    click.option(
        "--setups",
        type=click.Path(path_type=Path),
        default=from_settings("setups", "light-setups.toml"),
        show_default="light-setups.toml",
        metavar="FILE",
        help="For the present dose, where the setups were not kept as they were sent.",
    ),
    click.option("--keep", is_flag=True, help="Keep the reading without a sheet."),
)
_PRESENT = click.option("--present", metavar="TIME", help="The dose that is given now, such as '8 s'.")


def _typed(step: str, count: int, ends: str) -> tuple[Callable, ...]:
    return (
        click.option("--doses", metavar="LIST", help=f"As given: '0, 1 s, 2 s, 4 s, 8 s'; {ends}."),
        click.option("--centre", metavar="TIME", help="As planned: the middle step, such as '8 s' …"),
        click.option("--step", metavar="STOPS", default=step, show_default=True, help="… how far apart …"),
        click.option(
            "--steps", "count", type=int, default=count, show_default=True,
            help="… and how many, without those at the ends.",
        ),
    )  # fmt: skip


def of_flashes(given: dict) -> Dosed:
    """The flashes by the options of `flash_options`; stops are counted from the middle one."""
    given = given | {"present": None}
    if given["sheet"] is None or given["doses"] is not None or given["centre"] is not None:
        totals = flashes_s(given["doses"], given["centre"], given["step"], given["count"])
        return Dosed(totals[len(totals) // 2], totals, sheet_id=sheet_id(given))
    return of_strip(given)


def of_strip(given: dict) -> Dosed:
    """The doses by the options of `options`; those that were typed go before those of the notebook."""
    typed = given["doses"] is not None or given["centre"] is not None
    if given["sheet"] is None or typed:
        totals = totals_s(given["doses"], given["centre"], given["step"], given["count"])
        if given["present"] is None:
            raise InputError("strip: give --present, the dose that is given now, for example --present '8 s'")
        present_s = q.parse_seconds(given["present"], "--present", least_s=0.01)
        return Dosed(present_s, totals, sheet_id=sheet_id(given))
    from footlight.cli.read.given import Wanted, of_sheet
    from footlight.notebook.book import notebook

    wanted = Wanted(
        given["sheet"], given["controller"], given["run"], given["manner"], given["present"], given["setups"]
    )
    with notebook(given["book"], writing=False) as connection:
        found = of_sheet(connection, wanted)
    return Dosed(found.present_s, found.totals_s, found, found.sheet_id)


def sheet_id(given: dict) -> int | None:
    """Of the sheet that was named, None for none. Raises NotebookError for one that is not there."""
    if given["sheet"] is None:
        return None
    from footlight.notebook.book import notebook
    from footlight.notebook.sheets import by_number

    with notebook(given["book"], writing=False) as connection:
        return by_number.find(connection, given["sheet"], given["controller"])["id"]


def totals_s(doses: str | None, centre: str | None, step: str, count: int) -> tuple[float, ...]:
    """Every band's dose [s], zero first, anchor last; raises InputError where they do not rise."""
    if (doses is None) == (centre is None):
        raise InputError(
            "strip: give --sheet for the doses that the notebook knows; or either --doses, as given, or"
            " --centre with --step and --steps, as planned"
        )
    if centre is not None:
        totals = plan.fstop_steps(q.parse_seconds(centre, "--centre"), q.parse_stops(step, "--step"), count)
        return (0.0, *totals, plan.anchor_s(totals))
    given = _listed(str(doses))
    if given[0] != 0 or list(given) != sorted(set(given)) or len(given) < 5:
        raise InputError(
            "--doses: write a zero, three or more rising steps and the anchor, such as"
            f" '0, 4 s, 8 s, 16 s, 80 s', not '{doses}'"
        )
    return given


def flashes_s(doses: str | None, centre: str | None, step: str, count: int) -> tuple[float, ...]:
    """Every flash [s], none first; raises InputError where they do not rise."""
    if (doses is None) == (centre is None):
        raise InputError(
            "strip: give --sheet for the flashes that the notebook knows; or either --doses, as given, or"
            " --centre with --step and --steps, as planned"
        )
    if centre is not None:
        seconds, stops = q.parse_seconds(centre, "--centre"), q.parse_stops(step, "--step")
        return (0.0, *plan.fstop_steps(seconds, stops, count))
    given = _listed(str(doses))
    if given[0] != 0 or list(given) != sorted(set(given)) or len(given) < 3:
        raise InputError(
            f"--doses: write 0 and two or more rising flashes, such as '0, 1 s, 2 s', not '{doses}'"
        )
    return given


def _listed(doses: str) -> tuple[float, ...]:
    written = [part.strip() for part in doses.split(",")]
    return tuple(0.0 if part == "0" else q.parse_seconds(part, "--doses") for part in written)


def numbers(text: str | None, option: str, least: float, most: float) -> tuple[float, ...]:
    """A list of plain numbers; empty for None."""
    if not text:
        return ()
    return tuple(q.parse_number(part.strip(), option, least=least, most=most) for part in text.split(","))
