"""The printed board's files: what their copper joins, read by geometry alone, is what the netlist joins.

The files are written by hand; gerbonara and shapely read them, and know nothing of nets.
"""

import re
import subprocess
from functools import cache
from pathlib import Path

import pytest
from hardware.board import SCREWS, all_holes, holes
from hardware.circuit import build
from hardware.pcb import gerbers, kicad, router, shapes

pytest.importorskip("gerbonara", reason="gerbonara is not installed: the Gerber files are NOT read back here")
pytest.importorskip("shapely", reason="shapely is not installed: the Gerber files are NOT read back here")
from tests.hardware.copper import Copper

# Common to fabs' cheapest class: 0.15 mm; 0.2 mm is kept.
CLEAR_MM = 0.2
CIRCUIT = build()


@cache
def copper() -> Copper:
    return Copper(gerbers.MADE)


def groups(read: Copper) -> set[frozenset[tuple[str, str]]]:
    """The pins that are joined, by the holes they stand in."""
    pins = {shapes.spot(*hole): end for hole, end in all_holes(CIRCUIT).items()}
    found: dict[int, set[tuple[str, str]]] = {}
    for (x, y), piece in read.joined().items():
        near = [end for (px, py), end in pins.items() if abs(px - x) < 0.01 and abs(py - y) < 0.01]
        found.setdefault(piece, set()).update(near)
    return {frozenset(ends) for ends in found.values() if ends}


def wanted() -> set[frozenset[tuple[str, str]]]:
    nets: dict[str, set[tuple[str, str]]] = {}
    for end in all_holes(CIRCUIT).values():
        nets.setdefault(CIRCUIT.net_of(*end) or str(end), set()).add(end)
    return {frozenset(ends) for ends in nets.values()}


def test_the_copper_joins_what_the_netlist_joins() -> None:
    assert groups(copper()) == wanted()


def test_the_committed_files_are_what_the_code_makes() -> None:
    steps = list(router.read())
    assert router.is_current(CIRCUIT, steps)
    text = (gerbers.MADE / f"{gerbers.STEM}.kicad_pcb").read_text(encoding="utf-8")
    assert text == kicad.board(CIRCUIT, steps)
    for name, text in gerbers.files(shapes.layers(CIRCUIT, steps)):
        assert (gerbers.MADE / name).read_text(encoding="utf-8") == text, name


def test_the_file_for_kicad_holds_the_same_nets() -> None:
    """Read by kiutils, which knows the format and nothing of this project."""
    boards = pytest.importorskip(
        "kiutils.board", reason="kiutils is not installed: the KiCad file is NOT read"
    )
    read = boards.Board.from_file(str(gerbers.MADE / f"{gerbers.STEM}.kicad_pcb"))
    found: dict[str, set[tuple[str, str]]] = {}
    for footprint in read.footprints:
        refs = [item.text for item in footprint.graphicItems if getattr(item, "type", "") == "reference"]
        for pad in footprint.pads:
            if pad.net is not None:
                found.setdefault(pad.net.name, set()).add((refs[0], pad.number))
    assert found == {
        net: {(ref, CIRCUIT.parts[ref].pin(pin).number) for ref, pin in ends if CIRCUIT.parts[ref].on_board}
        for net, ends in CIRCUIT.nets.items()
    }
    assert len(read.traceItems) > 200


CHECK = """
import sys, pcbnew
board = pcbnew.LoadBoard(sys.argv[1])
board.GetDesignSettings().m_MinClearance = pcbnew.FromMM(0.2)
pcbnew.WriteDRCReport(board, sys.argv[2], pcbnew.EDA_UNITS_MILLIMETRES, True)
"""
SYSTEM_PYTHON = "/usr/bin/python3"


def has_kicad() -> bool:
    if not Path(SYSTEM_PYTHON).exists():
        return False
    asked = subprocess.run(
        [SYSTEM_PYTHON, "-c", "import pcbnew"], capture_output=True, timeout=60, check=False
    )
    return asked.returncode == 0


@pytest.mark.skipif(not has_kicad(), reason="KiCad is not installed: its own rule check is NOT run here")
def test_kicads_own_rule_check_finds_nothing_but_silk(tmp_path: Path) -> None:
    source, report = gerbers.MADE / f"{gerbers.STEM}.kicad_pcb", tmp_path / "drc.txt"
    subprocess.run([SYSTEM_PYTHON, "-c", CHECK, str(source), str(report)], check=True, timeout=120)
    text = report.read_text(encoding="utf-8")
    assert "Found 0 unconnected pads" in text and "Found 0 Footprint errors" in text
    assert {
        kind for kind in re.findall(r"^\[(\w+)\]", text, re.MULTILINE) if not kind.startswith("silk")
    } == set()


def test_copper_keeps_its_distance() -> None:
    assert copper().too_near(CLEAR_MM) == []


def test_holes_keep_theirs_and_leave_a_ring() -> None:
    """At least 0.25 mm of copper round each drilled hole, and every leg has its hole."""
    read = copper()
    assert len(read.holes) == len(all_holes(CIRCUIT)) + len(
        {s.a[1:] for s in router.read() if s.a[0] != s.b[0]}
    )
    for part in CIRCUIT.parts.values():
        if part.on_board:
            key = part.stock.key
            pad = shapes.BIG_PAD_MM if key in shapes.BIG_KEYS else shapes.PAD_MM
            assert (pad - shapes.DRILLS_MM.get(key, shapes.DRILL_MM)) / 2 >= 0.25
    assert (shapes.VIA_MM - shapes.VIA_DRILL_MM) / 2 >= 0.2 - 1e-9


def alter(tmp_path: Path, name: str, change) -> Copper:
    for source in gerbers.MADE.glob("*.[gd]*"):
        (tmp_path / source.name).write_text(source.read_text(encoding="utf-8"), encoding="utf-8")
    target = tmp_path / f"{gerbers.STEM}-{name}"
    target.write_text(change(target.read_text(encoding="utf-8")), encoding="utf-8")
    return Copper(tmp_path)


def without_one_stroke(text: str) -> str:
    lines = text.splitlines()
    strokes = [k for k, line in enumerate(lines) if line.endswith("D01*")]
    del lines[strokes[len(strokes) // 2] - 1 : strokes[len(strokes) // 2] + 1]
    return "\n".join(lines) + "\n"


def with_a_bridge(text: str) -> str:
    """A drop of copper from R1.1 to the leg of R3 below it."""
    a, b = (shapes.spot(*holes(CIRCUIT.parts[ref])["1"]) for ref in ("R1", "R3"))
    stroke = f"{gerbers._xy(a)}D02*\n{gerbers._xy(b)}D01*\n"
    return text.replace("M02*", f"D10*\n{stroke}M02*")


@pytest.mark.parametrize("change", [without_one_stroke, with_a_bridge], ids=lambda change: change.__name__)
def test_a_cut_and_a_bridge_are_seen(tmp_path: Path, change) -> None:
    assert groups(alter(tmp_path, "B_Cu.gbr", change)) != wanted()


def test_a_hole_that_is_not_plated_is_seen(tmp_path: Path) -> None:
    def drop(text: str) -> str:
        lines = text.splitlines()
        del lines[next(k for k, line in enumerate(lines) if line.startswith("X"))]
        return "\n".join(lines) + "\n"

    assert groups(alter(tmp_path, "PTH.drl", drop)) != wanted()


def test_bands_and_tabs_are_printed_where_the_parts_have_them() -> None:
    """Read-back of copper cannot see a diode that is printed the wrong way round: this looks at the silk."""
    marks = shapes.layers(CIRCUIT, [])
    thick = [mark for mark in marks.silk if isinstance(mark, shapes.Stroke) and mark.width_mm == 0.5]
    for part in CIRCUIT.parts.values():
        if not part.on_board or part.stock.shape not in ("diode", "zener"):
            continue
        spots = {pin: shapes.spot(*hole) for pin, hole in holes(part).items()}
        middle = [(s.a[0] + s.b[0]) / 2 for s in thick], [(s.a[1] + s.b[1]) / 2 for s in thick]
        near = [
            (x, y)
            for x, y in zip(*middle, strict=True)
            if abs(x - spots["K"][0]) + abs(y - spots["K"][1])
            < abs(x - spots["A"][0]) + abs(y - spots["A"][1])
            and min(abs(x - spots["K"][0]), abs(y - spots["K"][1])) < 0.01
            and abs(x - spots["K"][0]) + abs(y - spots["K"][1]) < 4
        ]
        assert near, f"{part.ref} has no band at its cathode"


def test_the_board_is_of_the_size_of_the_perfboard_with_its_screw_holes() -> None:
    (bare,) = gerbers.MADE.glob("*-NPTH.drl")
    text = bare.read_text(encoding="utf-8")
    for screw in SCREWS:
        x, y = shapes.spot(*screw)
        assert f"X{x:.4f}Y{y:.4f}" in text
    assert pytest.approx((121.92, 88.9)) == shapes.SIZE_MM
