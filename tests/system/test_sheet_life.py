"""A sheet from the box to the notebook, with the real firmware: pre-flash, camera, wet run, written about.

The camera's entry is made between the two, before any journal has come home, as it happens.
"""

import json
import time
from pathlib import Path

import pytest
from tests.host import typed

from footlight import examples
from footlight.actions import collect_journal, send_sequence
from footlight.bench import Bench
from footlight.bench.feet import Feet
from footlight.cli.main import group
from footlight.link.channel import Channel
from footlight.sequence import compile as compiled
from footlight.sequence import load

EXAMPLES = examples.path("reversal-print").parent


def _greeted(bench: Bench, unix_s: int) -> Channel:
    channel = Channel(bench.stream(), clock=bench.stream().clock)
    channel.greet(unix_s=unix_s)
    return channel


def test_one_sheet_has_one_life(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    book = tmp_path / "notebook.sqlite"
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", str(book))
    typed.asked(group, "paper add A baryta --size 8x10 --sheets 12 --speed 4")
    flash, wet = (compiled(load(EXAMPLES / f"{name}.toml")) for name in ("pre-flash", "reversal-print"))
    count, now_s = flash.program["sheets"], int(time.time()) + 1
    with Bench(tmp_path / "bench") as bench:
        bench.switch_on()
        channel = _greeted(bench, now_s)
        for one in (flash, wet):
            send_sequence.keep_and_send(channel, one, book, now_s)
        bench.run_for(3000)
        feet = Feet(bench)
        feet.arm(0, is_batch=True)
        feet.carry_out(flash.program)
        feet.put_away()
        # In the field, with the number that was pencilled; the journal is still on the controller.
        typed.asked(group, "expose 1 --meter 'EV 12' --stop f/22 --holder 1a --subject 'two chairs'")
        feet.arm(1, is_batch=False)
        feet.carry_out(wet.program)
        feet.put_away()
        home = collect_journal.bring_home(_greeted(bench, now_s + bench.now_ms // 1000), book, now_s + 3600)
    # Sheet 1 got its paper with the camera's entry, the others as they came home.
    assert home.papers.given == {"A": list(range(2, count + 1))}
    typed.asked(group, "write 1 --verdict good quiet blacks")
    story = json.loads(typed.asked(group, "sheet 1 --json"))
    assert [run["title"] for run in story["runs"]] == [flash.program["title"], wet.program["title"]]
    assert story["paper"]["left"] == 12 - count
    assert (story["camera"]["holder"], story["camera"]["exposure_index"]) == ("1a", 4)
    assert [one["text"] for one in story["written"]] == ["good", "quiet blacks"]
    assert json.loads(typed.asked(group, "search chairs --json"))[0]["sheet"] == 1
    assert len(json.loads(typed.asked(group, "sheets --json"))) == count
    (evening,) = json.loads(typed.asked(group, "session list --json"))
    assert evening["sheets"] == list(range(1, count + 1))
