"""`footlight find`: which controllers are plugged in."""

from typing import Any

import click

from footlight.cli.options import hint, json_option, print_json


@click.command("find")
@click.argument("ports", nargs=-1)
@json_option
def command(ports: tuple[str, ...], as_json: bool) -> None:
    """List the controllers that are plugged in, and what each other likely port turned out to be.

    Only ports whose USB ids are those of a controller's board are spoken to, and the one that is set in the
    environment or the settings. Name PORTS to try those instead.

    \b
    Example:
      footlight find
      footlight find socket://localhost:7700
    """
    from footlight.link import find, transport

    looks = [find.look_at(port) for port in ports or _set_port()]
    if not ports:
        looks += find.look_everywhere(
            port for port in transport.list_all() if port.address not in _set_port()
        )
    if as_json:
        print_json([_as_dict(look) for look in looks])
    else:
        for look in looks:
            click.echo(f"{look.address}  {_what(look)}" if look.is_controller else look.trouble)
    if not any(look.is_controller for look in looks):
        raise find.none_found([]) if not looks else find.NoControllerError("none of these is a controller")
    hint("Name one with --port, or set FOOTLIGHT_PORT.")


def _set_port() -> list[str]:
    from footlight import settings

    port = settings.held("port").value
    return [str(port)] if port else []


def _what(look: Any) -> str:
    from footlight.link.make import which_side

    greeting = look.greeting
    if greeting.agreed:
        return f"controller {greeting.id}, ready"
    return f"controller {greeting.id}, {which_side(look.address, greeting).partition(': ')[2]}"


def _as_dict(look: Any) -> dict[str, object]:
    greeting = look.greeting
    return {
        "port": look.address,
        "description": look.description,
        "controller": greeting.id if greeting else None,
        "build": greeting.build if greeting else None,
        "agreed": bool(greeting and greeting.agreed),
        "trouble": look.trouble,
    }
