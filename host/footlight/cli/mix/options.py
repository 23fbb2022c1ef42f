"""What the commands of `footlight mix` have in common: peroxide stocks, volumes from trays, hazards."""

from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

import click

from footlight import quantities as q
from footlight.chemistry import peroxide, shelf, tray
from footlight.chemistry.formula import Formula, formula_of
from footlight.chemistry.hazards import HEADING_WIDTH, Hazards, formula_named
from footlight.errors import InputError

_DEPTH = "12 mm"
in_tray = click.option("--tray", metavar="SIZE", help="Instead of a volume: inner size, '9.5x12 in'.")
depth = click.option("--depth", metavar="LENGTH", default=_DEPTH, show_default=True, help="How deep in it.")
rim = click.option("--rim", metavar="LENGTH", help="Height of the tray's rim: refuse what does not fit.")


class Wanted(NamedTuple):
    """A volume [mL], and what to know about it."""

    volume_ml: float
    notes: list[str]


def wanted(volume: str | None, tray_size: str | None, depth_of: str, rim_of: str | None) -> Wanted | None:
    """The volume asked for, straight or by tray and depth; None where neither is given.

    Raises `InputError` for both, and for a volume that does not fit under the rim.
    """
    if volume and tray_size and depth_of != _DEPTH:
        raise InputError("VOLUME, --depth: give one of them; the other follows from the tray")
    if not volume and not tray_size:
        return None
    inside = q.parse_sheet(tray_size, "--tray") if tray_size else None
    if volume:
        volume_ml = q.parse_volume_ml(volume, "VOLUME")
    else:
        assert inside is not None
        volume_ml = tray.volume_ml(inside, q.parse_length_mm(depth_of, "--depth"))
    if inside is None:
        if rim_of:
            raise InputError("--rim: give the tray's inner size too, for example --tray '9.5x12 in'")
        return Wanted(volume_ml, [])
    return Wanted(volume_ml, _fit(inside, volume_ml, rim_of))


def _fit(inside: q.Sheet, volume_ml: float, rim_of: str | None) -> list[str]:
    deep_mm = tray.depth_mm(inside, volume_ml)
    if rim_of:
        tray.check_fits(inside, q.parse_length_mm(rim_of, "--rim"), volume_ml)
    poured = q.format_volume_ml(volume_ml)
    stands = f"{poured} stands {q.format_length_mm(deep_mm)} deep in {q.format_sheet(inside)}"
    return [note for note in (stands, tray.depth_note(deep_mm)) if note]


def stock_of(text: str, what: str) -> peroxide.Solution:
    """A peroxide stock from its written strength."""
    return peroxide.solution(q.parse_strength(text, what), what)


def say_hazards(found: Iterable[Hazards]) -> None:
    """All that is to be known of each, wrapped; what an earlier one has already told is left out."""
    told: set[tuple[str, str]] = set()
    for one in found:
        click.echo(f"\nSafety: {one.title}")
        for heading, lines in one.sections:
            fresh = [line for line in lines if (heading, line) not in told]
            told |= {(heading, line) for line in fresh}
            for place, line in enumerate(fresh):
                first = heading if place == 0 else ""
                indent = f"  {first:<{HEADING_WIDTH}}"
                click.echo(click.wrap_text(line, 104, indent, " " * (HEADING_WIDTH + 4)))


def read_formula(written: str) -> Formula:
    """A formula that comes along, by any of its names, or a TOML file. Raises InputError for neither."""
    if not written.endswith(".toml"):
        return formula_named(written) or shelf.shipped(written)
    from footlight.sequence.files import read_toml

    found = read_toml(Path(written), "a bath formula")
    return formula_of(found.table, found.head.of)
