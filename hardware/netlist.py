"""Parts, pins and nets: the few words in which the circuit is written down."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import Enum
from pathlib import Path

PREFIX = {"p": 1e-12, "n": 1e-9, "µ": 1e-6, "m": 1e-3, "": 1.0, "k": 1e3, "M": 1e6}
STOCK_FILE = Path(__file__).with_name("parts.toml")


class Job(Enum):
    """What a pin does to its net, for the electrical rules."""

    PASSIVE = "passive"
    INPUT = "input"
    OUTPUT = "output"
    BUS = "bus"
    POWER_IN = "power in"
    POWER_OUT = "power out"
    GROUND = "ground"
    UNUSED = "unused"


@dataclass(frozen=True)
class PinKind:
    """One leg of a kind of part.

    Attributes:
        name: name in the drawing, e.g. 'G'.
        number: number on the package, as text.
        job: what it does to its net.
        max_v: highest voltage it bears [V], where that matters.
        high_v: least voltage that it reads as high [V]; inputs only.
        out_v: voltage that it gives as output or supply [V].
    """

    name: str
    number: str
    job: Job = Job.PASSIVE
    max_v: float | None = None
    high_v: float | None = None
    out_v: float | None = None


@dataclass(frozen=True)
class Stock:
    """One entry of parts.toml."""

    key: str
    shape: str
    value: str
    rating: str
    why: str
    instead: str
    cost_eur: float
    number: str
    also: tuple[str, ...]


@dataclass(frozen=True)
class Part:
    """One thing in the circuit."""

    ref: str
    stock: Stock
    pins: tuple[PinKind, ...]
    task: str
    on_board: bool

    def pin(self, name: str) -> PinKind:
        """Return the pin of that name; KeyError names part and pin."""
        for pin in self.pins:
            if pin.name == name:
                return pin
        raise KeyError(f"{self.ref} has no pin {name}")


@dataclass
class Circuit:
    """Parts by reference, and for each net the set of (reference, pin name)."""

    parts: dict[str, Part] = field(default_factory=dict)
    nets: dict[str, set[tuple[str, str]]] = field(default_factory=dict)

    def add(self, part: Part) -> None:
        """Add a part; its reference must be new."""
        if part.ref in self.parts:
            raise ValueError(f"{part.ref} is there already")
        self.parts[part.ref] = part

    def join(self, net: str, *ends: str) -> None:
        """Connect ends such as 'R1.2' to a net; an end can be in one net only."""
        for end in ends:
            ref, _, pin = end.partition(".")
            self.parts[ref].pin(pin)
            other = self.net_of(ref, pin)
            if other is not None and other != net:
                raise ValueError(f"{end} is in {other} already, and cannot be in {net}")
            self.nets.setdefault(net, set()).add((ref, pin))

    def net_of(self, ref: str, pin: str) -> str | None:
        """Return the net of a pin, or None."""
        for net, ends in self.nets.items():
            if (ref, pin) in ends:
                return net
        return None

    def ends(self, net: str) -> Iterator[tuple[Part, PinKind]]:
        """Yield each part and pin on a net, sorted by reference."""
        for ref, pin in sorted(self.nets[net]):
            yield self.parts[ref], self.parts[ref].pin(pin)

    def of_shape(self, *shapes: str) -> Iterator[Part]:
        """Yield the parts of these shapes, in order of reference."""
        for ref in sorted(self.parts, key=ref_key):
            if self.parts[ref].stock.shape in shapes:
                yield self.parts[ref]


def ref_key(ref: str) -> tuple[str, int]:
    """Sort key that puts R2 before R10."""
    letters = ref.rstrip("0123456789")
    return letters, int(ref[len(letters) :] or 0)


def quantity(text: str) -> float:
    """Return the number that a marked value means, e.g. '4.7 kΩ' → 4700.0."""
    match = re.fullmatch(r"([\d.]+) ([pnµmkM]?)[ΩF]", text)
    if match is None:
        raise ValueError(f"{text!r} is no value of a resistor or capacitor")
    return float(match[1]) * PREFIX[match[2]]


def read_stock(source: Path = STOCK_FILE) -> dict[str, Stock]:
    """Return the entries of parts.toml by key."""
    table = tomllib.loads(source.read_text(encoding="utf-8"))
    return {key: Stock(key=key, **(row | {"also": tuple(row["also"])})) for key, row in table.items()}
