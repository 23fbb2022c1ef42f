"""The printable files are whole bodies of the size that the dimensions give, and hold the board."""

import struct
from collections import Counter
from pathlib import Path

import pytest
from hardware import board, printing

PRINTS = {
    "box.stl": lambda d: (
        d["inner_w"] + 2 * d["wall"],
        d["inner_d"] + 2 * d["wall"],
        d["inner_h"] + d["wall"],
    ),
    "lid.stl": lambda d: (d["inner_w"] + 2 * d["wall"], d["inner_d"] + 2 * d["wall"], None),
    "bar.stl": lambda d: (d["bar_w"], None, d["bar_t"]),
    "pedal-floor.stl": lambda d: (None, None, d["floor_t"]),
    "usb-plug.stl": lambda d: (d["usb_w"] + 6, d["usb_h"] + 6, 6.0),
    "pedal-base.stl": lambda d: (d["pedal_w"], None, None),
    "pedal-treadle.stl": lambda d: (d["pedal_w"] - 4, None, None),
}
Corner = tuple[float, ...]


def triangles(path: Path) -> list[tuple[Corner, Corner, Corner]]:
    data = path.read_bytes()
    count = struct.unpack("<I", data[80:84])[0]
    found = []
    for index in range(count):
        numbers = struct.unpack("<12f", data[84 + 50 * index : 132 + 50 * index])
        a, b, c = (tuple(round(v, 4) for v in numbers[3 * k : 3 * k + 3]) for k in (1, 2, 3))
        found.append((a, b, c))
    return found


@pytest.mark.parametrize("name", PRINTS)
def test_the_body_is_closed(name: str) -> None:
    """Each edge is run along once in either direction: no hole, no inside-out face."""
    edges: Counter[tuple[Corner, Corner]] = Counter()
    for corners in triangles(printing.MADE / name):
        for k in range(3):
            edges[corners[k], corners[(k + 1) % 3]] += 1
    assert edges
    assert [edge for edge, count in edges.items() if edges[edge[1], edge[0]] != count] == []


@pytest.mark.parametrize("name", PRINTS)
def test_the_body_has_the_size_that_the_dimensions_give(name: str) -> None:
    corners = [corner for triangle in triangles(printing.MADE / name) for corner in triangle]
    for axis, wanted in enumerate(PRINTS[name](printing.read_dimensions())):
        values = [corner[axis] for corner in corners]
        if wanted is not None:
            assert max(values) - min(values) == pytest.approx(wanted, abs=0.05)
    assert min(corner[2] for corner in corners) == pytest.approx(0.0, abs=0.01)


def test_the_prints_are_of_these_sources() -> None:
    assert printing.FINGERPRINT.read_text("utf-8") == printing.fingerprint()


def test_the_box_holds_the_board() -> None:
    d = printing.read_dimensions()
    (x1, y1), (x2, _), (_, y2) = board.SCREWS[0], board.SCREWS[1], board.SCREWS[2]
    assert d["screw_dx"] == pytest.approx((x2 - x1) * board.PITCH_MM)
    assert d["screw_dy"] == pytest.approx((y2 - y1) * board.PITCH_MM)
    assert d["board_w"] >= board.COLUMNS * board.PITCH_MM
    assert d["board_d"] >= board.ROWS * board.PITCH_MM
    assert d["inner_w"] - 2 * d["lid_post_d"] >= d["board_w"]
    assert d["inner_d"] / 2 - abs(d["board_y"]) >= d["board_d"] / 2


def test_the_computers_slot_faces_the_pico() -> None:
    """The Pico's middle column lies at the slot's middle, within a millimetre and a half."""
    d = printing.read_dimensions()
    place = board.PLACES["U1"]
    middle = (place.column + board.PICO_ROW_GAP / 2 - (board.COLUMNS + 1) / 2) * board.PITCH_MM
    assert abs(middle - d["usb_x"]) < 1.5


def test_a_formula_that_is_no_sum_is_refused(tmp_path: Path) -> None:
    source = tmp_path / "d.scad"
    source.write_text("a = 1;\nb = max(a, 2);\n", encoding="utf-8")
    with pytest.raises(ValueError, match="no sum of numbers"):
        printing.read_dimensions(source)
