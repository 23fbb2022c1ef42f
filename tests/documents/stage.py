"""Where the commands of one page are run: an empty home, a folder of their own, a date, a controller.

Everything happens in this process, through the tool's own entry point, so that its errors and exit codes are
those of the command. `<!-- room: empty -->` makes the notebook an empty one; otherwise it holds the sheet 41
that pages speak of. `<!-- later: 2 days -->` lets time pass outside of the bench; `<!-- feet: … -->` is what
the printer does (see `controller`), `<!-- edit: FILE: OLD -> NEW -->` what the reader does in an editor.
"""

import contextlib
import os
import shutil
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from click.testing import CliRunner
from tests.documents.clock import TYPING_S, Clock
from tests.documents.controller import StandIn
from tests.documents.fences import Told
from tests.documents.shell import NoShellError, Typed, typed
from tests.host.notebook.journals import EVENING, PRINT, PRINT_PROGRAM, SHA, write

from footlight.actions import practise
from footlight.cli.main import run as footlight
from footlight.link import transport
from footlight.notebook import place
from footlight.notebook.book import notebook
from footlight.notebook.journal import bring, programs
from footlight.quantities import parse_seconds

COLUMNS = "100"
_BENCH_S = "0.1"


@dataclass(frozen=True)
class Said:
    """What a command left behind: its exit code, and output and errors as a terminal shows them."""

    code: int
    text: str


class Stage:
    """One page's room."""

    def __init__(self, folder: Path, patch: pytest.MonkeyPatch) -> None:
        self._patch = patch
        self.home, self.folder = folder / "home", folder / "prints"
        self.home.mkdir()
        self.folder.mkdir()
        _empty_environment(self.home, patch)
        patch.chdir(self.folder)
        self.clock = Clock()
        patch.setattr(time, "time", self.clock.now)
        self.controller = StandIn(practise.place_of(None))
        self.clock.passed_s = self.controller.passed_s
        patch.setattr(transport.serial, "serial_for_url", self.controller.open_port)
        patch.setattr(transport.list_ports, "comports", self.controller.list_ports)
        _furnish()

    def obey(self, told: Told) -> None:
        """A word of the page to the runner."""
        if told.word == "feet":
            self.controller.carry_out(told.text)
        elif told.word == "later":
            self.clock.later(_span_s(told.text))
        elif told.word == "edit":
            _edit(told.text)
        elif told.word == "room" and told.text == "empty":
            place.default_path().unlink()
        else:
            raise ValueError(f"line {told.line}: '{told.word}: {told.text}' is not understood")

    def run(self, line: str) -> Said:
        """A command as it was typed."""
        command = typed(line)
        self.clock.later(TYPING_S)
        with pytest.MonkeyPatch.context() as patch:
            for name, value in command.values.items():
                patch.setenv(name, value)
            said = self._run_words(command)
        if command.into and said.code == 0:
            Path(command.into).write_text(said.text, encoding="utf-8")
            return Said(0, "")
        return said

    def _run_words(self, command: Typed) -> Said:
        name, *words = command.words
        if name == "footlight":
            return self._footlight(words)
        if name not in _BUILT_IN:
            raise NoShellError(f"'{name}' is not run here; mark the block '<!-- not run: WHY -->'")
        return Said(0, _BUILT_IN[name](self._patch, *words))

    def _footlight(self, words: list[str]) -> Said:
        if words[:1] == ["watch"]:
            # It would go on until Ctrl-C.
            return _typed_in([*words, "--once"])
        if words[:1] != ["bench"]:
            return _typed_in(words)
        # The bench of a page is begun in earnest and ended at once; the stand-in goes on with its flash.
        self.controller.put_away()
        self.controller.is_on_usb = False
        folder = words[words.index("--folder") + 1] if "--folder" in words else None
        self.controller.folder = practise.place_of(Path(folder) if folder else None)
        return _typed_in([*_at_any_port(words), "--for", _BENCH_S])


def _at_any_port(words: list[str]) -> list[str]:
    # Pages are run beside one another: two of them cannot have the same port.
    if "--tcp-port" not in words:
        return words
    at = words.index("--tcp-port")
    return [*words[:at], "--tcp", *words[at + 2 :]]


def _typed_in(words: list[str]) -> Said:
    with pytest.MonkeyPatch.context() as patch, CliRunner().isolation() as streams:
        patch.setattr(sys, "argv", ["footlight", *words])
        code = 0
        try:
            footlight()
        except SystemExit as end:
            code = end.code if isinstance(end.code, int) else int(bool(end.code))
        sys.stdout.flush()
        sys.stderr.flush()
        return Said(code, streams[2].getvalue().decode("utf-8"))


def _empty_environment(home: Path, patch: pytest.MonkeyPatch) -> None:
    for name in [name for name in os.environ if name.startswith(("FOOTLIGHT_", "XDG_"))]:
        patch.delenv(name)
    for name, value in {"HOME": str(home), "TZ": "UTC", "COLUMNS": COLUMNS, "SHELL": "/bin/bash"}.items():
        patch.setenv(name, value)
    time.tzset()


def _furnish() -> None:
    """The notebook of a printer who has made sheet 41, and thinks it mottled."""
    with notebook(place.default_path(), writing=True) as connection:
        epoch = bring.epoch_id(connection, "box-1", "e1", EVENING)
        bring.bring(connection, epoch, write(*PRINT), EVENING)
        sent = programs.Sequence(SHA, "PENCIL", "reversal print", PRINT_PROGRAM, "# the sequence\n", "8 s")
        programs.note_sent(connection, sent, "box-1", 1, EVENING)
    assert _typed_in(["write", "41", "--defect", "mottle", "upper left"]).code == 0


def _edit(text: str) -> None:
    name, _, change = text.partition(": ")
    old, _, new = change.partition(" -> ")
    file = Path(name)
    before = file.read_text(encoding="utf-8")
    if not new or old not in before:
        raise ValueError(f"edit: '{old}' does not stand in {name}")
    file.write_text(before.replace(old, new), encoding="utf-8")


def _span_s(text: str) -> float:
    count, _, unit = text.partition(" ")
    if unit in ("day", "days"):
        return float(count) * 86_400
    return parse_seconds(text, "later")


def _export(patch: pytest.MonkeyPatch, setting: str) -> str:
    name, _, value = setting.partition("=")
    patch.setenv(name, value)
    return ""


def _cat(patch: pytest.MonkeyPatch, name: str) -> str:
    return Path(name).read_text(encoding="utf-8")


def _mkdir(patch: pytest.MonkeyPatch, name: str) -> str:
    Path(name).mkdir()
    return ""


def _cd(patch: pytest.MonkeyPatch, name: str) -> str:
    patch.chdir(name)
    return ""


def _cp(patch: pytest.MonkeyPatch, source: str, target: str) -> str:
    shutil.copyfile(source, target)
    return ""


_BUILT_IN = {"export": _export, "cat": _cat, "mkdir": _mkdir, "cd": _cd, "cp": _cp}


@contextlib.contextmanager
def stage(folder: Path) -> Iterator[Stage]:
    """A room, given back as it was found."""
    with pytest.MonkeyPatch.context() as patch:
        room = Stage(folder, patch)
        try:
            yield room
        finally:
            room.controller.put_away()
            patch.undo()
            time.tzset()
