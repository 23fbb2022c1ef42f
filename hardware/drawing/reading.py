"""Read the nets back from a finished schematic, by geometry alone, as someone would who holds the paper.

What counts: wires join where their ends meet, where an end meets a pin or a name, and where there is a dot.
Wires that cross without a dot are apart. Equal names are one net. Nothing of the netlist is looked at.
"""

from __future__ import annotations

import xml.etree.ElementTree as ET
from dataclasses import dataclass, field

from hardware.drawing.canvas import Point

SVG = "{http://www.w3.org/2000/svg}"
End = tuple[str, str]


class ReadingError(ValueError):
    """The drawing can be read in two ways; the message says where."""


@dataclass
class _Found:
    wires: list[list[Point]] = field(default_factory=list)
    dots: list[Point] = field(default_factory=list)
    pins: list[tuple[End, Point]] = field(default_factory=list)
    names: list[tuple[str, Point]] = field(default_factory=list)


def read_nets(svg: str) -> dict[str, set[End]]:
    """Return the pins of each net of a drawing; a net without a name is called after its first pin.

    Raises:
        ReadingError: when a wire ends on the middle of another and there is no dot.
    """
    found = _collect(svg)
    groups = _Groups()
    for wire in found.wires:
        for a, b in zip(wire, wire[1:], strict=False):
            groups.join(("at", *a), ("at", *b))
    for dot in found.dots:
        for wire in found.wires:
            if any(_on(dot, a, b) for a, b in zip(wire, wire[1:], strict=False)):
                groups.join(("at", *dot), ("at", *wire[0]))
    for end, at in found.pins:
        groups.join(("pin", *end), ("at", *at))
    for name, at in found.names:
        groups.join(("net", name), ("at", *at))
    _refuse_doubt(found)
    return _named(groups, found)


def _collect(svg: str) -> _Found:
    found = _Found()
    for element in ET.fromstring(svg).iter():
        kind = element.get("class")
        if kind == "wire":
            found.wires.append([_point(pair) for pair in element.attrib["points"].split()])
        elif kind == "dot":
            found.dots.append(_centre(element))
        elif kind == "pin":
            found.pins.append(((element.attrib["data-ref"], element.attrib["data-pin"]), _centre(element)))
        elif kind == "net":
            found.names.append((element.text or "", _point(element.attrib["data-at"])))
    return found


def _point(pair: str) -> Point:
    x, y = pair.split(",")
    return float(x), float(y)


def _centre(element: ET.Element) -> Point:
    return float(element.attrib["cx"]), float(element.attrib["cy"])


def _on(point: Point, a: Point, b: Point) -> bool:
    """Whether a point lies on a stretch, its ends counted in."""
    (x, y), (x1, y1), (x2, y2) = point, a, b
    aside = abs((x - x1) * (y2 - y1) - (y - y1) * (x2 - x1)) > 1e-6
    return not aside and min(x1, x2) <= x <= max(x1, x2) and min(y1, y2) <= y <= max(y1, y2)


def _refuse_doubt(found: _Found) -> None:
    """A wire's end, a pin or a name on the middle of a wire needs a dot."""
    ends = [at for wire in found.wires for at in (wire[0], wire[-1])]
    for at in ends + [at for _, at in found.pins] + [at for _, at in found.names]:
        for wire in found.wires:
            inside = at not in wire and any(_on(at, a, b) for a, b in zip(wire, wire[1:], strict=False))
            if inside and at not in found.dots:
                raise ReadingError(f"something ends on a wire at {at}, and there is no dot")


class _Groups:
    """Which things are joined."""

    def __init__(self) -> None:
        self._parent: dict[tuple, tuple] = {}

    def root(self, key: tuple) -> tuple:
        """Return what stands for the group of a thing."""
        self._parent.setdefault(key, key)
        while self._parent[key] != key:
            key = self._parent[key]
        return key

    def join(self, a: tuple, b: tuple) -> None:
        """Make two groups one."""
        self._parent[self.root(a)] = self.root(b)


def _named(groups: _Groups, found: _Found) -> dict[str, set[End]]:
    nets: dict[tuple, set[End]] = {}
    for end, _ in found.pins:
        nets.setdefault(groups.root(("pin", *end)), set()).add(end)
    names: dict[tuple, str] = {}
    for name, _ in found.names:
        root = groups.root(("net", name))
        if names.setdefault(root, name) != name:
            raise ReadingError(f"{names[root]} and {name} are joined in the drawing")
    return {names.get(root, "_".join(min(ends))): ends for root, ends in nets.items()}
