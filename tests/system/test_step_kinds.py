"""A step of every kind, from the file to the sheet: planned, compiled, carried out on the real firmware.

A new kind fails here until it has a sample below, and whoever has to know of it knows it.
"""

import json
import shutil
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
from footlight.notebook.book import notebook
from footlight.notebook.sheets import by_number, wet
from footlight.sequence import compile as compiled
from footlight.sequence import load, step_keys
from footlight_core import program

HEAD = 'title = "KINDS"\nname = "kinds of steps"\n\n[trays.dish]\nplace = "1"\ntongs = "A"\n'
# What the file says of a step of each kind.
SAMPLES: dict[str, str] = {
    "bath": 'tray = "dish"\ntime = "10 s"\nlift = "3 s"',
    "by hand": 'tray = "dish"\ntime = "10 s"\ncues = [{ at = "4 s", show = "DUMP" }]',
    "until pressed": 'tray = "dish"\nleast = "4 s"\nmost = "20 s"',
    "light": 'setup = "second"\ntime = "3 s"',
    "pause": "",
}
# A dry one of each kind that may go without a tray.
DRY = {
    "by hand": SAMPLES["by hand"].replace('tray = "dish"\n', ""),
    "until pressed": SAMPLES["until pressed"].replace('tray = "dish"\n', ""),
}
LAST = '[[step]]\nkind = "pause"\nname = "last"\nshow = "LAST"\n'


def test_every_kind_has_its_sample():
    assert set(SAMPLES) == set(step_keys.KINDS) == set(step_keys.STEPS)
    assert [kind.name for kind in program.KINDS] == list(dict(program.STEP_RULES))


def written(folder: Path, kind: str, keys: str) -> Path:
    shutil.copy(examples.path("reversal-print").parent / step_keys.SETUPS_FILE, folder)
    path = folder / "kinds.toml"
    path.write_text(f'{HEAD}\n[[step]]\nkind = "{kind}"\nname = "sample"\n{keys}\n\n{LAST}')
    return path


def greeted(bench: Bench, unix_s: int) -> Channel:
    channel = Channel(bench.stream(), clock=bench.stream().clock)
    channel.greet(unix_s=unix_s)
    return channel


def carried_out(tmp_path: Path, path: Path) -> None:
    """One sheet, from the file to the notebook."""
    made, now_s = compiled(load(path)), int(time.time()) - 3600
    book = tmp_path / "notebook.sqlite"
    with Bench(tmp_path / "bench") as bench:
        bench.switch_on()
        send_sequence.keep_and_send(greeted(bench, now_s), made, book, now_s)
        bench.run_for(3000)
        feet = Feet(bench)
        feet.arm(0, is_batch=False)
        feet.carry_out(made.program)
        feet.put_away()
        collect_journal.bring_home(greeted(bench, now_s + bench.now_ms // 1000), book, now_s + 60)


@pytest.mark.parametrize(
    ("kind", "keys"), [*SAMPLES.items(), *DRY.items()], ids=[*SAMPLES, *(f"dry {kind}" for kind in DRY)]
)
def test_a_step_from_the_file_to_the_sheet(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, kind: str, keys: str
):
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", str(tmp_path / "notebook.sqlite"))
    path = written(tmp_path, kind, keys)
    plan = typed.asked(group, f"plan {path}")
    assert "sample" in plan and (kind in plan or kind == "bath")
    planned = json.loads(typed.asked(group, f"plan {path} --json"))
    assert [step["name"] for step in planned["steps"]] == ["sample", "last"]

    carried_out(tmp_path, path)
    story = json.loads(typed.asked(group, "sheet 1 --json"))
    assert story["runs"][0]["ended"] == "whole"
    assert "sample" in typed.asked(group, "sheet 1")
    typed.asked(group, f"sheet 1 --picture {tmp_path / 'run.svg'}")
    is_in_tray = "tray" in keys
    with notebook(tmp_path / "notebook.sqlite", writing=False) as connection:
        sheet = by_number.find(connection, 1)
        assert (wet.first_wet_run(connection, sheet["id"]) is not None) == is_in_tray
