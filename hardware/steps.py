"""The order of assembly: which parts come in which step."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Step:
    """One step of the assembly text."""

    number: int
    title: str
    refs: tuple[str, ...]


STEPS: tuple[Step, ...] = (
    Step(1, "supply", ("J1", "F1", "D1", "C1", "D2", "C2")),
    Step(2, "sockets for the Pico", ("U1",)),
    Step(3, "lamp driver", ("R1", "R2", "Q1", "R23", "R24", "Q5", "R3", "C4", "D3", "D4", "C5", "R4", "Q2")),
    Step(4, "lamp terminal, clamp and LED", ("J2", "D5", "D6", "D9", "LED1", "R6")),
    Step(5, "white light", ("R7", "R8", "Q3", "D7", "J3", "R30", "R31", "R32")),
    Step(6, "pedals", ("J5", "J7", "JP1", "R14", "R15", "R16", "R17", "C7", "C8")),
    Step(7, "sounder", ("R9", "R10", "Q4", "D8", "J6")),
    Step(8, "display", ("U2", "C3", "C6", "R11", "R12", "R13", "J4")),
    Step(
        9,
        "read-back, light sensor and I²C",
        (
            "R25",
            "R26",
            "R27",
            "R28",
            "R29",
            "D10",
            "D11",
            "J8",
            "R18",
            "R19",
            "R20",
            "C9",
            "J9",
            "R21",
            "R22",
        ),
    ),
)


def step_of() -> dict[str, int]:
    """Return the step of each reference."""
    return {ref: step.number for step in STEPS for ref in step.refs}
