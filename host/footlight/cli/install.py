"""`footlight install`: the firmware onto a board, or a newer one onto a controller."""

import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import click

from footlight.cli.options import hint, is_quiet, json_option, port_option, print_json


@click.command("install")
@port_option
@click.option("--replace", is_flag=True, help="Take over a board on which another program is.")
@click.option("--udev-rule", is_flag=True, help="Only print a rule that lets you use the port (Linux).")
@json_option
def command(port: str | None, replace: bool, udev_rule: bool, as_json: bool) -> None:
    """Put the firmware on the board that is plugged in, or update it.

    Needs no internet. Files are copied beside the old ones, verified on the board by their hash and only
    then put in place; cut off anywhere, give the same command again. Sequences and journal stay. A run
    under way is never broken off.

    \b
    Example:
      footlight install
      footlight install --port /dev/ttyACM1
      footlight install --udev-rule | sudo tee /etc/udev/rules.d/60-footlight.rules
    """
    if udev_rule:
        _tell_udev_rule()
        return
    from footlight.actions.install_firmware import install_firmware
    from footlight.views.installation import installation_dict, installation_line

    with _shown(as_json) as (stage, progress):
        done = install_firmware(port, int(time.time()), replace=replace, stage=stage, progress=progress)
    if as_json:
        print_json(installation_dict(done))
        return
    click.echo(installation_line(done))
    click.echo(
        "Next: 'footlight bringup' tries its parts one by one; 'footlight send FILE' gives it a sequence."
    )


def _tell_udev_rule() -> None:
    from footlight.views.installation import UDEV_FILE, UDEV_RULE

    click.echo(UDEV_RULE)
    hint(f"Keep it as {UDEV_FILE}, then: sudo udevadm control --reload; plug the board in again.")


@contextmanager
def _shown(as_json: bool) -> Iterator[tuple[Any, Any]]:
    """What is being done, and how far: a line a stage, and a bar for a person at a terminal."""
    if as_json or is_quiet():
        yield (lambda text: None), (lambda done, total: None)
        return
    if not sys.stderr.isatty():
        yield (lambda text: click.echo(text, err=True)), (lambda done, total: None)
        return
    from rich.console import Console
    from rich.progress import BarColumn, DownloadColumn, Progress, TextColumn

    from footlight.cli.terminal import free

    columns = (TextColumn("{task.description}"), BarColumn(), DownloadColumn())
    with free(sys.stderr), Progress(*columns, console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("", total=None)
        yield (
            lambda text: bar.update(task, description=text),
            lambda done, total: bar.update(task, completed=done, total=total),
        )
