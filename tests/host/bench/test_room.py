"""The picture of the room, as text, and where the sheet is by the controller's records alone."""

import json
from pathlib import Path
from typing import Any

import pytest
from rich.console import Console

from footlight.bench import Bench
from footlight.bench import events as ev
from footlight.bench.events import Event
from footlight.bench.room import Room, Tray, draw, where
from footlight.bench.scene import Known, Scene

TRAYS = [Tray(str(place), f"bath number {place}", "A") for place in range(1, 9)]
STEPS = [
    {"kind": "bath", "name": "developer", "place": "1"},
    {"kind": "light", "name": "second exposure"},
    {"kind": "bath", "name": "wash", "place": "8"},
]
SHA = "0123456789abcdef"


@pytest.fixture(autouse=True)
def referee() -> None:
    """None: records are invented here."""


def picture(room: Room, columns: int, lines: int) -> list[str]:
    console = Console(width=columns, height=lines, color_system=None, force_terminal=False, record=True)
    with console.capture() as caught:
        console.print(draw(room, columns, lines))
    return caught.get().rstrip("\n").split("\n")


@pytest.mark.parametrize(("columns", "lines"), [(110, 32), (100, 30), (80, 24), (80, 25), (200, 50)])
@pytest.mark.parametrize("count", [0, 1, 5, 8])
def test_the_room_fits_in_the_terminal(columns: int, lines: int, count: int):
    room = Room(trays=TRAYS[:count], keys=[("q", "end")], warning="a warning", port="--port /dev/pts/1")
    drawn = picture(room, columns, lines)
    assert len(drawn) <= lines
    assert max(map(len, drawn)) <= columns
    assert "a warning" in drawn[-1]


def test_trays_stand_from_left_to_right():
    line = next(line for line in picture(Room(trays=TRAYS), 110, 32) if "1 A" in line)
    found = [line.index(f"{place} A") for place in range(1, 9)]
    assert found == sorted(found)


def test_the_picture_tells_lamp_white_light_foot_and_power():
    dark = "\n".join(picture(Room(), 110, 32))
    lit = "\n".join(picture(Room(lamp=True, white=True, foot_down=True, powered=False), 110, 32))
    for words in ("lamp dark", "white light locked", "foot up"):
        assert words in dark and words not in lit
    for words in ("LAMP LIT", "white light permitted", "foot DOWN", "POWER OFF"):
        assert words in lit and words not in dark


def test_dots_are_drawn_where_they_are_lit():
    rows = [[False] * 32 for _ in range(8)]
    rows[3][5] = True
    large = [line for line in picture(Room(rows=rows), 110, 32) if "██" in line]
    assert len(large) == 1
    small = [line for line in picture(Room(rows=rows, trays=TRAYS), 80, 24) if "▄" in line]
    assert len(small) == 1
    assert "█" not in "".join(small)


@pytest.fixture
def scene(tmp_path: Path):
    bench = Bench(tmp_path)
    return Scene(bench, {SHA: Known(TRAYS, STEPS)}), bench


def record(bench: Bench, **fields: Any) -> None:
    event = Event(bench.now_us, ev.RECORD, json.dumps({"n": 1, "t": 0, "run": 1, "sheet": 41} | fields))
    for listener in bench.listeners:
        listener(event)


def test_the_sheet_goes_where_the_records_say(scene: tuple[Scene, Bench]):
    watched, bench = scene
    seen = [where(watched.room())]
    for fields in (
        {"k": "arm", "sha": SHA, "slot": 1, "title": "PRINT", "sheets": 1},
        {"k": "begin", "step": 1},
        {"k": "step", "step": 1, "start": 0, "real_ms": 1, "how": "pedal"},
        {"k": "intent", "step": 2, "light_ms": 1, "gate_ms": 1, "sha": SHA},
        {"k": "begin", "step": 2},
        {"k": "gave", "step": 2, "gate_ms": 1, "light_ms": 1, "left_ms": 0, "how": "whole"},
        {"k": "step", "step": 2, "start": 0, "real_ms": 1, "how": "time"},
        {"k": "begin", "step": 3},
        {"k": "step", "step": 3, "start": 0, "real_ms": 1, "how": "aside"},
        {"k": "end", "how": "time"},
    ):
        record(bench, **fields)
        seen.append(where(watched.room()))
    assert seen == [
        "no sheet",
        "sheet 41, in hand",
        "sheet 41, in tray 1",
        "sheet 41, in hand",
        *["sheet 41, under the lamp"] * 4,
        *["sheet 41, in tray 8"] * 2,
        "no sheet",
    ]


def test_the_set_up_light_moves_no_sheet(scene: tuple[Scene, Bench]):
    watched, bench = scene
    record(bench, k="intent", step=0, sheet=0, light_ms=1, gate_ms=1, sha="")
    assert where(watched.room()) == "no sheet"


def test_a_sequence_that_the_bench_was_not_given_has_no_trays_and_says_why(scene: tuple[Scene, Bench]):
    watched, bench = scene
    record(bench, k="arm", sha="f" * 16, slot=1, title="OTHER", sheets=1)
    room = watched.room()
    assert not room.trays
    assert "without the file" in "\n".join(picture(room, 110, 32))


def test_the_bench_forgets_what_the_scene_has_taken(scene: tuple[Scene, Bench]):
    watched, bench = scene
    for _ in range(5):
        bench.press()
        bench.release()
    assert [told.text for told in watched.take_told() if told.kind == "pedal"] == ["down", "up"] * 5
    assert len(bench.events) <= 1
    assert watched.take_told() == []
