"""A notebook that knows how a strip was lit: planned with the real command, its journal written by hand."""

import os
import shutil
from dataclasses import dataclass
from pathlib import Path

from click.testing import CliRunner, Result
from tests.host.notebook.journals import BOOT, DATED, EVENING, write

from footlight import sequence
from footlight.actions import send_sequence
from footlight.cli.main import group
from footlight.errors import FootlightError
from footlight.notebook.book import notebook
from footlight.notebook.journal import bring, programs

EXAMPLES = Path(sequence.__file__).parents[1] / "examples"
TABLET = "0.06, 0.2, 0.35, 0.5, 0.7, 0.9, 1.1, 1.3, 1.5, 1.7, 1.9, 2.1"


def run(*words: object) -> Result:
    """A command as it is typed; what it refuses is in `exception`."""
    result = CliRunner().invoke(group, [str(word) for word in words])
    if result.exception is not None and not isinstance(result.exception, (FootlightError, SystemExit)):
        raise result.exception
    return result


def refused(*words: object) -> str:
    """The one line of a command that refuses."""
    result = run(*words)
    assert isinstance(result.exception, FootlightError), result.output
    assert "\n" not in str(result.exception)
    return str(result.exception)


@dataclass(frozen=True)
class Darkroom:
    """A folder with light setups, and a notebook."""

    folder: Path
    book: Path

    @property
    def setups(self) -> Path:
        return self.folder / "light-setups.toml"

    def planned(self, *words: object) -> Path:
        """A strip's sequence file, by `footlight light strip WORDS`."""
        path = self.folder / "strip.toml"
        found = run("light", "strip", *words, "--setups", self.setups, "--toml", path, "--replace")
        assert found.exception is None, found.exception
        return path

    def lit(self, path: Path, sheet: int, changes: dict[int, tuple[int, int] | None] | None = None) -> None:
        """Send a sequence and run it. changes: light step → (least, most) given [ms]; None: skipped."""
        compiled = sequence.compile(sequence.load(path, self.setups))
        with notebook(self.book, writing=True) as connection:
            programs.store(connection, send_sequence.as_kept(compiled), EVENING)
            rows = _journal(compiled, sheet, changes or {})
            epoch = bring.epoch_id(connection, "box-1", "e1", EVENING)
            bring.bring(connection, epoch, write(*rows), EVENING)


def room(folder: Path) -> Darkroom:
    """A darkroom in a new folder; its notebook is the one that commands use."""
    shutil.copy(EXAMPLES / "light-setups.toml", folder)
    book = folder / "notebook.sqlite"
    os.environ["FOOTLIGHT_NOTEBOOK"] = str(book)
    return Darkroom(folder, book)


def _journal(compiled, sheet: int, changes: dict) -> list[tuple[object, ...]]:
    """Every step done as planned but for the changes; a light with two bounds was cut off by the mains."""
    sha = compiled.sha256[:16]
    rows: list[tuple[object, ...]] = [BOOT, DATED, (10_000, "arm", 1, 1, sha, "STRIP", sheet, 1)]
    now = 20_000
    for number, step in enumerate(compiled.program["steps"], start=1):
        if step["kind"] == "light":
            rows += _light(number, step, sheet, now, sha, changes.get(number, (step["time_ms"],) * 2))
        else:
            spent = step.get("time_ms") or step.get("least_ms") or 5_000
            rows += [
                (now, "begin", 1, number, sheet),
                (now + spent, "step", 1, number, sheet, now, spent, "time"),
            ]
        now += 60_000
    return [*rows, (now, "end", 1, sheet, "whole")]


def _light(number: int, step: dict, sheet: int, now: int, sha: str, given) -> list[tuple[object, ...]]:
    planned, dead = step["time_ms"], step["dead_ms"]
    intent = (now, "intent", 1, number, sheet, planned, planned + dead, sha)
    if given is None:
        return [intent, (now + 1, "gave", 1, number, sheet, 0, 0, planned, "skipped")]
    least, most = given
    if least != most:
        return [intent, (now + 1, "cut", 1, number, sheet, least, most)]
    how = "whole" if least == planned else "abandoned"
    return [
        intent,
        (now + least + dead, "gave", 1, number, sheet, least + dead, least, planned - least, how),
    ]
