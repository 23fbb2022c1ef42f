"""What stops a sequence on its way to the controller: trays too small, another job under the same title."""

import time
from pathlib import Path

import pytest
from tests.host.link.fakes import Box, BoxStream, FastClock

from footlight import sequence
from footlight.actions.check_before_run import check_before_run
from footlight.actions.plan_sequence import plan_sequence
from footlight.actions.send_sequence import keep_and_send, refuse_small_trays
from footlight.errors import InputError
from footlight.link.channel import Channel
from footlight.notebook.book import notebook
from footlight.notebook.stock import papers

BATHS = """title = "PRINT"
name = "{name}"
sheet = "{size}"
sheets = {sheets}
[trays.developer]
bath = "developer"
size = "{tray}"
[[step]]
kind = "bath"
name = "first"
show = "DEV"
tray = "developer"
time = "{time}"
"""


def compiled(folder: Path, **words: str | int) -> sequence.Compiled:
    usual = {"name": "prints", "size": "8x10", "sheets": 1, "tray": "10x12", "time": "2:00"}
    path = folder / "print.toml"
    text = BATHS.format(**(usual | words))
    path.write_text(text if words.get("sheets", 1) != 1 else text.replace("sheets = 1\n", ""))
    return sequence.compile(sequence.load(path))


def test_a_sheet_that_lies_in_none_of_its_trays_is_not_sent(tmp_path: Path):
    small = compiled(tmp_path, tray="5x7")
    with pytest.raises(InputError, match="takes 5x7.*the sheet is 8x10.*Nothing was sent"):
        refuse_small_trays(small)
    listed = check_before_run(tmp_path / "print.toml", tmp_path / "none.sqlite", 0)
    assert any(check.about == "tray" and check.wrong for check in listed.checks)
    refuse_small_trays(compiled(tmp_path, tray="12x10"))


@pytest.fixture
def channel() -> Channel:
    channel = Channel(BoxStream(Box()), clock=FastClock())
    channel.greet()
    return channel


@pytest.mark.parametrize("other", [{"size": "4x5"}, {"name": "portraits"}])
def test_another_job_of_that_title_is_replaced_only_when_said(
    tmp_path: Path, channel: Channel, other: dict[str, str]
):
    book, now_s = tmp_path / "n.sqlite", int(time.time())
    keep_and_send(channel, compiled(tmp_path), book, now_s)
    with pytest.raises(InputError, match="slot 1 holds 'PRINT' already: prints for 8x10, and this is"):
        keep_and_send(channel, compiled(tmp_path, **other), book, now_s)
    assert keep_and_send(channel, compiled(tmp_path, **other), book, now_s, in_place=True).slot == 1


def test_the_same_job_with_other_times_is_replaced_as_ever(tmp_path: Path, channel: Channel):
    book, now_s = tmp_path / "n.sqlite", int(time.time())
    keep_and_send(channel, compiled(tmp_path), book, now_s)
    assert keep_and_send(channel, compiled(tmp_path, time="2:30"), book, now_s).slot == 1


def test_a_batch_of_more_sheets_than_the_box_has(tmp_path: Path):
    book, now_s = tmp_path / "n.sqlite", int(time.time())
    with notebook(book, writing=True) as connection:
        papers.add(connection, "A", "baryta", "8x10", 3, None, now_s)
    batch = Path(__file__).parents[3] / "host" / "footlight" / "examples" / "pre-flash.toml"
    plan = plan_sequence(batch, book, now_s)
    assert plan.compiled.sequence.sheets > 3
    assert "of paper A 3 are left by the count" in plan.notes[0]
