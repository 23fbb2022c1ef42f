"""`footlight lamp sensor`"""

import click

from footlight.cli.options import port_option


@click.command("sensor")
@click.argument("fitted", type=click.Choice(["fitted", "none"]))
@port_option
def command(fitted: str, port: str | None) -> None:
    """Say whether a light sensor is there: 'fitted' or 'none'. The controller keeps it.

    One that is fitted and sees no light under an open gate is a fault; without one lights go by seconds.

    \b
    Example:
      footlight lamp sensor none
    """
    from footlight.actions.know_lamps import fit_sensor

    is_fitted = fitted == "fitted"
    fit_sensor(is_fitted, port)
    click.echo("a light sensor is fitted" if is_fitted else "no light sensor: lights go by seconds")
