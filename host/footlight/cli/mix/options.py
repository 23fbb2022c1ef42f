"""Options that several commands of `footlight mix` have."""

from typing import TYPE_CHECKING

import click

from footlight import quantities as q
from footlight.cli.options import Decorator
from footlight.errors import InputError, field

if TYPE_CHECKING:
    from footlight.actions.fill_tray import TrayVolume

_DEPTH = "12 mm"
in_tray: Decorator = click.option(
    "--tray", metavar="SIZE", help="Instead of a volume: inner size, '9.5x12 in'."
)
depth: Decorator = click.option(
    "--depth", metavar="LENGTH", default=_DEPTH, show_default=True, help="How deep in it."
)
rim: Decorator = click.option(
    "--rim", metavar="LENGTH", help="Height of the tray's rim: refuse what does not fit."
)


def volume_of(
    volume: str | None, tray_size: str | None, depth_of: str, rim_of: str | None
) -> "TrayVolume | None":
    """The volume asked for, straight or by tray and depth; None where neither is given.

    Raises `InputError` for both, and for a volume that does not fit under the rim.
    """
    from footlight.actions.fill_tray import volume_for

    if volume and tray_size and depth_of != _DEPTH:
        raise InputError(
            f"{field('volume')}, {field('depth')}: give one of them; the other follows from the tray"
        )
    return volume_for(
        q.parse_volume_ml(volume, field("volume")) if volume else None,
        q.parse_sheet(tray_size, field("tray")) if tray_size else None,
        q.parse_length_mm(depth_of, field("depth")),
        q.parse_length_mm(rim_of, field("rim")) if rim_of else None,
    )
