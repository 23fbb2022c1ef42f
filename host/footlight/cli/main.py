"""The command group: every command by its name, each loaded only when it is called."""

import io
import os
import sys
from typing import NoReturn, TextIO

import click

from footlight import __version__
from footlight.cli import terminal
from footlight.cli.table import QUIET_OPTION, Rows, Table
from footlight.errors import FootlightError

# Heading of the help -> its commands: name -> (module that holds a click command called `command`, one line).
SECTIONS: dict[str, Rows] = {
    "Reckon": {
        "light": ("light", "Times, heights, stops, strips and doses of the light"),
        "camera": ("camera", "View camera: times, bellows, true stops, lens cards"),
        "mix": ("mix", "Dilutions, peroxide, baths, capacity, hazards"),
        "tones": ("tones", "What a scene will look like in print, and how to set for it"),
    },
    "Plan a run": {
        "tonight": ("tonight", "What stands, what waits, what comes next; also 'footlight' alone"),
        "new": ("new", "Write a sequence file to start from"),
        "plan": ("plan", "Check a sequence file; show its time line and arithmetic"),
        "ready": ("ready", "The check list before a run"),
        "page": ("page", "On paper: wall card, labels, lens tables, print report"),
        "again": ("again", "A print once more, as it was or with a change"),
        "desk": ("desk", "The same tool as a page in the browser, in daylight"),
    },
    "The controller": {
        "find": ("find", "Find the controllers that are plugged in"),
        "slots": ("slots", "What the controller holds"),
        "send": ("send", "Check, compile and send a sequence"),
        "clear": ("clear", "Empty a slot"),
        "watch": ("watch", "Follow a run as it goes on"),
        "collect": ("collect", "Bring its journal home into the notebook"),
        "install": ("install", "Put the firmware on the board, or update it"),
        "lamp": ("lamp", "Light counted by a sensor: learn the lamps, see what is known"),
        "bringup": ("bringup", "Try a new controller, part by part"),
    },
    "What came of it": {
        "sheets": ("sheets", "List the sheets"),
        "sheet": ("sheet", "One sheet: its whole life, planned against given"),
        "session": ("session", "Evenings: named ones, and those that the dates tell"),
        "beside": ("beside", "Two prints side by side, planned and done"),
        "read": ("read", "What a strip or a print says: from a scan, or by eye"),
        "accept": ("accept", "Take a strip's advice as the light setup's reference"),
        "expose": ("expose", "What a sheet got in the camera: planned and given"),
        "drift": ("drift", "A light over months: planned, given, found good"),
        "write": ("write", "A verdict, defects, a note about a sheet"),
        "attach": ("attach", "Pictures of a sheet, kept small"),
        "search": ("search", "Find what was written"),
    },
    "The stock": {
        "bath": ("bath", "Baths in the trays: mixed, used, what is left"),
        "paper": ("paper", "Batches of paper: speed, pre-flash threshold, what is left"),
        "lens": ("lens", "Your lenses, with their true stops"),
        "setups": ("setups", "References of light setups, as they were written over time"),
    },
    "Keeping": {
        "history": ("history", "What was entered, and what of it was taken back"),
        "undo": ("undo", "Take back what was written last"),
        "reinstate": ("reinstate", "Let stand again what was taken back"),
        "check": ("check", "Look the notebook through: is it whole?"),
        "backup": ("backup", "A checked copy of the notebook"),
        "export": ("export", "Everything in the notebook as JSON or CSV"),
        "restore": ("restore", "A new notebook from an exported one"),
        "settings": ("settings", "What holds for every command, and where it is said"),
        "manual": ("manual", "Every command on one page"),
        "completion": ("completion", "How to let your shell complete commands"),
    },
    "Without a controller": {
        "bench": ("bench", "The real firmware in the terminal, a key for the pedal"),
        "demo": ("demo", "The whole job on the bench, in a few seconds"),
    },
}
COMMANDS: Rows = {name: row for rows in SECTIONS.values() for name, row in rows.items()}


@click.group(
    cls=Table,
    sections=SECTIONS,
    package="footlight.cli",
    context_settings={"help_option_names": ["-h", "--help"]},
    invoke_without_command=True,
)
@click.version_option(__version__, prog_name="footlight")
@click.pass_context
def group(ctx: click.Context) -> None:
    """Plan, send, watch and keep darkroom runs for a foot-operated controller."""
    # By the convention of https://no-color.org: any value but an empty one.
    if os.environ.get("NO_COLOR"):
        ctx.color = False
    if ctx.invoked_subcommand is None:
        # Called through its own parser, so that options from settings and environment hold.
        command = group.get_command(ctx, "tonight")
        assert command is not None
        with command.make_context("tonight", [], parent=ctx) as alone:
            command.invoke(alone)


group.params.append(QUIET_OPTION)


def run() -> None:
    """Entry point: the only place where an error becomes one line and an exit code."""
    for stream in (sys.stdout, sys.stderr):
        _write_anything(stream)
        terminal.guard(stream)
    try:
        sys.exit(group.main(prog_name="footlight", standalone_mode=False))
    except FootlightError as error:
        _end(str(error), error.exit_code)
    except click.exceptions.NoArgsIsHelpError as error:
        # A group of commands alone: which there are is the answer, and more than a line.
        click.echo(error.format_message(), err=True)
        sys.exit(error.exit_code)
    except click.UsageError as error:
        where = error.ctx.command_path if error.ctx else "footlight"
        _end(f"{error.format_message()} See '{where} --help'.", error.exit_code)
    except click.ClickException as error:
        _end(error.format_message(), error.exit_code)
    except OSError as error:
        # A path that no system call takes, a disk that fails: nothing of it is the tool's own mistake.
        if error.filename is None:
            raise
        _end(f"{error.filename}: {(error.strerror or 'cannot be used').lower()}; name another file", 1)
    except click.Abort:
        _end("stopped", 130)


def _write_anything(stream: TextIO) -> None:
    # A console that lacks a character shows another one, rather than the command failing half-way.
    if isinstance(stream, io.TextIOWrapper):
        stream.reconfigure(errors="replace")


def _end(text: str, exit_code: int) -> NoReturn:
    click.echo(f"footlight: {' '.join(text.split())}", err=True)
    sys.exit(exit_code)
