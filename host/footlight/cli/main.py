"""The command group: a table of names, each loaded only when it is called.

Help lists commands from the table, so `footlight --help` imports none of them.
"""

import importlib
import io
import sys
from typing import NoReturn, TextIO

import click

from footlight import __version__
from footlight.errors import FootlightError

# name -> (module in footlight.cli that holds a click command called `command`, one line of help)
COMMANDS: dict[str, tuple[str, str]] = {
    "new": ("new", "Write a sequence file to start from"),
    "plan": ("plan", "Check a sequence file; show its time line and arithmetic"),
    "read": ("read", "What a strip or a print says: from a scan, or by eye"),
    "light": ("light", "Times, heights, stops, strips and doses of the light"),
    "camera": ("camera", "View camera: times at low indexes, bellows, true stops, lens cards"),
    "mix": ("mix", "Dilutions, peroxide, whole baths, capacity, and the hazards of each"),
    "install": ("install", "Put the firmware on the board, or update it"),
    "bringup": ("bringup", "Try a new controller, part by part"),
    "find": ("find", "Find the controllers that are plugged in"),
    "slots": ("slots", "What the controller holds"),
    "send": ("send", "Check, compile and send a sequence to the controller"),
    "clear": ("clear", "Empty a slot of the controller"),
    "watch": ("watch", "Follow a run as it goes on"),
    "collect": ("collect", "Bring the controller's journal home into the notebook"),
    "sheets": ("sheets", "List the sheets in the notebook"),
    "sheet": ("sheet", "One sheet: planned against given"),
    "bench": ("bench", "Practise with the real firmware: the room in the terminal, a key for the pedal"),
    "demo": ("demo", "The whole job on the bench, in a few seconds"),
    "write": ("write", "A verdict, defects, a note about a sheet"),
    "search": ("search", "Find what was written about sheets"),
    "undo": ("undo", "Take back what was written last"),
    "backup": ("backup", "A checked copy of the notebook"),
    "export": ("export", "Everything in the notebook as JSON or CSV"),
    "restore": ("restore", "A new notebook from an exported one"),
    "completion": ("completion", "How to let your shell complete commands"),
}


class _Table(click.Group):
    """A click group whose commands are imported on first use."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        module, _ = COMMANDS[cmd_name]
        return importlib.import_module(f"footlight.cli.{module}").command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(name, text) for name, (_, text) in COMMANDS.items()])


@click.group(cls=_Table, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="footlight")
def group() -> None:
    """Plan, send, watch and keep darkroom runs for a foot-operated controller."""


def run() -> None:
    """Entry point: the only place where an error becomes one line and an exit code."""
    _write_anything(sys.stdout)
    _write_anything(sys.stderr)
    try:
        sys.exit(group.main(prog_name="footlight", standalone_mode=False))
    except FootlightError as error:
        _end(str(error), error.exit_code)
    except click.UsageError as error:
        where = error.ctx.command_path if error.ctx else "footlight"
        _end(f"{error.format_message()} See '{where} --help'.", error.exit_code)
    except click.ClickException as error:
        _end(error.format_message(), error.exit_code)
    except click.Abort:
        _end("stopped", 130)


def _write_anything(stream: TextIO) -> None:
    # A console that lacks a character shows another one, rather than the command failing half-way.
    if isinstance(stream, io.TextIOWrapper):
        stream.reconfigure(errors="replace")


def _end(text: str, exit_code: int) -> NoReturn:
    click.echo(f"footlight: {' '.join(text.split())}", err=True)
    sys.exit(exit_code)
