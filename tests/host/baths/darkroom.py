"""An invented darkroom: sequences carried out as often as wanted, as their controller would record it."""

import sqlite3
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from tests.host.notebook.journals import Line

from footlight import sequence
from footlight.actions import send_sequence
from footlight.notebook.journal import bring, programs
from footlight.sequence import Compiled
from footlight_core import records

EXAMPLES = Path(sequence.__file__).parents[1] / "examples"
# 2026-03-01 18:00:00 UTC.
EVENING = 1_772_388_000
HOUR = 3600
BOOT = {"k": "boot", "reason": "power", "value": 0, "build": 1, "fresh": 0, "t": 0}


def compiled(path: Path = EXAMPLES / "reversal-print.toml") -> Compiled:
    """A sequence file, ready to be sent."""
    return sequence.compile(sequence.load(path))


@dataclass
class Darkroom:
    """One controller and its notebook. Every run is brought home at once."""

    connection: sqlite3.Connection
    controller: str = "box-1"
    number: int = 0
    run: int = 0
    lines: list[Line] = field(default_factory=list)

    def know(self, one: Compiled, now_s: int = EVENING) -> Compiled:
        """Keep a sequence as `send` does."""
        programs.store(self.connection, send_sequence.as_kept(one), now_s)
        return one

    def carry_out(
        self,
        one: Compiled,
        sheet: int,
        at_s: int,
        *,
        upto: int | None = None,
        judged_ms: int = 120_000,
        dated: bool = True,
    ) -> list[Line]:
        """A run of a sequence, begun then; `upto`: the power fails in that step, and nobody goes on."""
        self.run += 1
        program = one.program
        rows: list[dict[str, Any]] = [
            {"k": "boot", "reason": "power", "value": 0, "build": 1, "fresh": 0, "t": 0}
        ]
        rows += [{"k": "date", "unix_s": at_s, "t": 0}] if dated else []
        arm = {"run": self.run, "slot": 1, "sha": one.sha256[:16], "title": program["title"]}
        rows.append({"k": "arm", "t": 0} | arm | {"sheet": sheet, "sheets": program["sheets"]})
        now_ms = 0
        for number in range(sheet, sheet + program["sheets"]):
            for place, step in enumerate(program["steps"], start=1):
                at = {"run": self.run, "step": place, "sheet": number}
                if upto == place:
                    rows.append({"k": "begin", "t": now_ms} | at)
                    return self._bring(rows, at_s)
                rows += _step(at, step, now_ms, judged_ms, one.sha256[:16])
                now_ms = rows[-1]["t"]
        rows.append({"k": "end", "run": self.run, "sheet": sheet, "how": "whole", "t": now_ms})
        return self._bring(rows, at_s)

    def _bring(self, rows: list[dict[str, Any]], at_s: int) -> list[Line]:
        lines = []
        for row in rows:
            self.number += 1
            record = row | {"n": self.number}
            lines.append(Line(self.number, records.seal(record).decode(), record))
        self.lines += lines
        self.home(lines, at_s + 2 * HOUR)
        return lines

    def home(self, lines: list[Line], now_s: int) -> None:
        """Bring lines home, as often as wanted."""
        epoch = bring.epoch_id(self.connection, self.controller, "e1", now_s)
        bring.bring(self.connection, epoch, lines, now_s)


def _step(
    at: dict[str, int], step: dict[str, Any], now_ms: int, judged_ms: int, sha: str
) -> list[dict[str, Any]]:
    """The records of one step, done as planned."""
    if step["kind"] == "light":
        light_ms, gate_ms = step["time_ms"], step["time_ms"] + step["dead_ms"]
        intent = {"light_ms": light_ms, "gate_ms": gate_ms, "sha": sha}
        gave = {"gate_ms": gate_ms, "light_ms": light_ms, "left_ms": 0, "how": "whole"}
        return [{"k": "intent", "t": now_ms} | at | intent, {"k": "gave", "t": now_ms + gate_ms} | at | gave]
    length_ms = judged_ms if step["kind"] == "judge" else step.get("time_ms", 1000)
    end = {"start": now_ms, "real_ms": length_ms, "how": "pedal"}
    return [{"k": "begin", "t": now_ms} | at, {"k": "step", "t": now_ms + length_ms} | at | end]
