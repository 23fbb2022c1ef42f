"""The board as a file that KiCad 6 and later opens, so that others can change it; the same every time."""

from __future__ import annotations

from collections.abc import Iterator
from uuid import NAMESPACE_URL, uuid5

from hardware.board import holes
from hardware.netlist import Circuit, Part
from hardware.pcb import shapes
from hardware.pcb.router import WIDE, Step

HEAD = """(kicad_pcb (version 20211014) (generator footlight)
  (general (thickness 1.6))
  (paper "A4")
  (layers
    (0 "F.Cu" signal) (31 "B.Cu" signal)
    (36 "B.SilkS" user "B.Silkscreen") (37 "F.SilkS" user "F.Silkscreen")
    (38 "B.Mask" user) (39 "F.Mask" user) (44 "Edge.Cuts" user) (48 "B.Fab" user) (49 "F.Fab" user)
  )
  (setup (pad_to_mask_clearance 0.1))
"""
FONT = "(effects (font (size 1 1) (thickness 0.15)))"


def board(circuit: Circuit, steps: list[Step]) -> str:
    """Return the text of the .kicad_pcb file."""
    names = sorted(circuit.nets)
    numbers = {net: k for k, net in enumerate(names, start=1)}
    lines = ['  (net 0 "")', *(f'  (net {numbers[net]} "{net}")' for net in names)]
    for part in circuit.parts.values():
        if part.on_board:
            lines += _footprint(circuit, part, numbers)
    lines += list(_tracks(steps, numbers))
    w, h = shapes.SIZE_MM
    corners = [(0.0, 0.0), (w, 0.0), (w, h), (0.0, h)]
    for k, (a, b) in enumerate(zip(corners, corners[1:] + corners[:1], strict=True)):
        ends = f"(start {_at(a)}) (end {_at(b)})"
        lines.append(f'  (gr_line {ends} (layer "Edge.Cuts") (width 0.1) {_stamp(f"edge {k}")})')
    for number, hole in enumerate(shapes.layers(circuit, []).bare):
        lines.append(
            f'  (footprint "footlight:screw" (layer "F.Cu") {_stamp(f"screw {number}")} (at {_at(hole.at)})\n'
            f'    (pad "" np_thru_hole circle (at 0 0) (size {hole.drill_mm} {hole.drill_mm}) '
            f"(drill {hole.drill_mm}) (layers *.Cu *.Mask) {_stamp(f'screw pad {number}')}))"
        )
    return HEAD + "\n".join(lines) + "\n)\n"


def _footprint(circuit: Circuit, part: Part, numbers: dict[str, int]) -> Iterator[str]:
    spots = {name: shapes.spot(*hole) for name, hole in holes(part).items()}
    x0, y0 = next(iter(spots.values()))
    key = part.stock.key
    size = shapes.BIG_PAD_MM if key in shapes.BIG_KEYS else shapes.PAD_MM
    drill = shapes.DRILLS_MM.get(key, shapes.DRILL_MM)
    head = f'(footprint "footlight:{key}" (layer "F.Cu") {_stamp(part.ref)}'
    yield f"  {head} (at {_at((x0, y0))}) (attr through_hole)"
    for kind, words, layer in (("reference", part.ref, "F.SilkS"), ("value", part.stock.value, "F.Fab")):
        stamp = _stamp(f"{part.ref} {kind}")
        yield f'    (fp_text {kind} "{words}" (at 0 -2) (layer "{layer}") {FONT} {stamp})'
    for name, (x, y) in spots.items():
        net = circuit.net_of(part.ref, name)
        joined = f' (net {numbers[net]} "{net}")' if net else ""
        shape = "rect" if name == part.pins[0].name and key not in shapes.BIG_KEYS else "circle"
        where = f"(at {x - x0:.4f} {y0 - y:.4f}) (size {size} {size}) (drill {drill}) (layers *.Cu *.Mask)"
        stamp = _stamp(f"{part.ref} {name}")
        yield f'    (pad "{part.pin(name).number}" thru_hole {shape} {where}{joined} {stamp})'
    yield "  )"


def _tracks(steps: list[Step], numbers: dict[str, int]) -> Iterator[str]:
    for net, layer, a, b in shapes.straights(steps):
        width = shapes.WIDE_MM if net in WIDE else shapes.TRACK_MM
        ends = f"(start {_at(shapes.units(*a))}) (end {_at(shapes.units(*b))}) (width {width})"
        name = ("F.Cu", "B.Cu")[layer]
        yield f'  (segment {ends} (layer "{name}") (net {numbers[net]}) {_stamp(f"{net} {layer} {a} {b}")})'
    for net, at in sorted({(s.net, s.a[1:]) for s in steps if s.a[0] != s.b[0]}):
        size = f"(size {shapes.VIA_MM}) (drill {shapes.VIA_DRILL_MM})"
        where = _at(shapes.units(*at))
        stamp = _stamp(f"via {net} {at}")
        yield f'  (via (at {where}) {size} (layers "F.Cu" "B.Cu") (net {numbers[net]}) {stamp})'


def _at(point: tuple[float, float]) -> str:
    """KiCad counts downwards."""
    return f"{point[0]:.4f} {shapes.SIZE_MM[1] - point[1]:.4f}"


def _stamp(what: str) -> str:
    """An identifier that is the same every time."""
    return f"(tstamp {uuid5(NAMESPACE_URL, 'footlight board ' + what)})"
