"""The demo, and every shipped sequence, carried out to the end on the bench by scripted feet."""

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from footlight import examples, sequence
from footlight.actions.demonstrate import fresh
from footlight.bench import Bench
from footlight.bench import events as ev
from footlight.bench.feet import Feet, Slip
from footlight.cli.demo import command
from footlight.errors import InputError
from footlight.link import upload
from footlight.link.channel import Channel

EXAMPLES = examples.path("reversal-print").parent

SHIPPED = sorted(path for path in EXAMPLES.glob("*.toml") if path.stem != "light-setups")


def test_there_are_three_shipped_sequences():
    assert len(SHIPPED) >= 3


def carried_out(path: Path, folder: Path, slips: dict[int, Slip]) -> tuple[sequence.Compiled, list[dict]]:
    """A shipped sequence after its run, and the records that it left."""
    compiled = sequence.compile(sequence.load(path))
    with Bench(folder) as bench:
        bench.switch_on()
        channel = Channel(bench.stream(), clock=bench.stream().clock)
        channel.greet()
        upload.send(channel, compiled.data, compiled.sha256, compiled.program["title"])
        bench.run_for(3000)
        feet = Feet(bench)
        feet.arm(0, compiled.program["sheets"] > 1)
        feet.carry_out(compiled.program, slips)
        feet.put_away()
        return compiled, [json.loads(event.text) for event in bench.events if event.kind == ev.RECORD]


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_a_shipped_sequence_runs_to_its_end(path: Path, tmp_path: Path):
    compiled, records = carried_out(path, tmp_path, {})
    assert [record["how"] for record in records if record["k"] == "end"] == ["whole"]
    lights = [step for step in compiled.program["steps"] if step["kind"] == "light"]
    gave = [record for record in records if record["k"] == "gave"]
    assert len(gave) == len(lights) * compiled.program["sheets"]
    assert [record["light_ms"] for record in gave] == [step["time_ms"] for step in lights] * compiled.program[
        "sheets"
    ]


def test_a_power_cut_is_told_and_gone_on_from(tmp_path: Path):
    _, records = carried_out(EXAMPLES / "reversal-print.toml", tmp_path, {8: Slip(cut_ms=30_000)})
    cuts = [record for record in records if record["k"] == "cut"]
    assert [(cut["step"], cut["least_ms"], cut["most_ms"]) for cut in cuts] == [(8, 0, 0)]
    assert [record["how"] for record in records if record["k"] == "end"] == ["whole"]


def test_the_demo(tmp_path: Path):
    done = CliRunner().invoke(command, ["--folder", str(tmp_path / "demo")])
    assert done.exit_code == 0, done.output
    for text in (
        "6.0 s at 620 mm f/11 → 10.0 s at 800 mm f/11",
        "sheets 1–8",
        "second exposure",
        "cut off",
        "+11.2 s",
    ):
        assert text in done.output
    assert (tmp_path / "demo" / "time-line.png").read_bytes().startswith(b"\x89PNG")
    # The same light in a sagging mains: paper had what was asked where it was counted, and less by seconds.
    off = dict(re.findall(r"^(counted|by seconds) .* ([+−]\d\.\d\d) stop$", done.output, re.MULTILINE))
    assert off["counted"][1:] <= "0.02" and "−0.15" < off["by seconds"] < "−0.33"
    assert (tmp_path / "demo" / "two-lights.png").read_bytes().startswith(b"\x89PNG")
    assert fresh(tmp_path / "demo").is_dir(), "what it made it may make again"


def test_the_demo_deletes_nothing_that_it_did_not_make(tmp_path: Path):
    (tmp_path / "print.tif").touch()
    with pytest.raises(InputError, match="holds other files"):
        fresh(tmp_path)
    assert (tmp_path / "print.tif").exists()
