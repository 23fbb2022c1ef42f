"""Make what is made: `python -m hardware.generate` writes it, `--check` says what is out of date."""

from __future__ import annotations

import csv
import sys
from collections.abc import Iterator
from pathlib import Path

from hardware import budget, generate_font, pages, printing, tables
from hardware.circuit import build
from hardware.drawing import board, enclosure, installation, light_sensor, mains, schematic
from hardware.drawing.canvas import Canvas
from hardware.faults.table import read as read_faults
from hardware.generate_pins import TARGET, render
from hardware.netlist import Circuit
from hardware.pcb import gerbers, kicad, router, shapes, views
from hardware.pins import read_pins
from hardware.routing import Wire, route
from hardware.spacing import too_near
from hardware.steps import STEPS

HERE = Path(__file__).parent
MADE = HERE / "made"
CHECKS = MADE / "circuit-checks.csv"
PAGES = ("README.md", "parts.md", "assembly.md", "bring-up.md", "circuit-checks.md", "faults.md", "board.md")
# These are shown as pictures too; the step pictures are SVG only.
WITH_PNG = {
    "schematic",
    "board-parts",
    "board-solder",
    "mains",
    "light-sensor",
    "pedals",
    "labels",
    "box-drawing",
    "pedal-drawing",
}


def drawings(circuit: Circuit, wires: list[Wire]) -> Iterator[tuple[str, Canvas]]:
    """Yield every drawing by its name."""
    yield "schematic", schematic.draw(circuit)
    yield "board-parts", board.parts_side(circuit)
    yield "board-solder", board.solder_side(circuit, wires)
    before: set[str] = set()
    for step in STEPS:
        yield f"step-{step.number}", board.step_picture(circuit, wires, step, before)
        before |= set(step.refs)
    yield "mains", mains.mains()
    yield "light-sensor", light_sensor.light_sensor()
    yield "pedals", installation.pedals()
    yield "labels", installation.labels()
    yield "box-drawing", enclosure.box()
    yield "pedal-drawing", enclosure.pedal()


def made_parts(circuit: Circuit, wires: list[Wire]) -> dict[str, str]:
    """Return the made parts of the pages by name."""
    parts = {
        "pins": tables.pin_table(),
        "nets": tables.net_table(circuit),
        "parts on the board": tables.parts_table(circuit, on_board=True),
        "parts off the board": tables.parts_table(circuit, on_board=False),
        "extras": tables.extras_table(),
        "cost": f"In all about {round(tables.cost_eur(circuit), -1):.0f} €, cables and box left out.",
        "current": tables.current_table(),
        "display current": tables.display_table(),
        "circuit checks": tables.checks_table(read_checks()),
        "faults": tables.faults_table(read_faults()),
        "mistakes": tables.mistakes_table(),
    }
    for step in STEPS:
        parts[f"parts of step {step.number}"] = tables.step_parts(circuit, step)
        parts[f"wires of step {step.number}"] = tables.step_wires(wires, step)
    return parts


def text_files(circuit: Circuit, wires: list[Wire]) -> Iterator[tuple[Path, str]]:
    """Yield every made text file with its text: pins.py, font.py, drawings, lists, and the filled pages."""
    yield TARGET, render(read_pins())
    letters = generate_font.read_fonts(generate_font.SOURCE.read_text(encoding="utf-8"))
    yield generate_font.TARGET, generate_font.render(letters)
    for name, canvas in drawings(circuit, wires):
        yield MADE / f"{name}.svg", canvas.svg()
    yield MADE / "parts.csv", tables.parts_csv(circuit)
    yield MADE / "order.csv", tables.order_csv(circuit)
    steps = list(router.read())
    for name, text in gerbers.files(shapes.layers(circuit, steps)):
        yield gerbers.MADE / name, text
    yield gerbers.MADE / f"{gerbers.STEM}.kicad_pcb", kicad.board(circuit, steps)
    made = made_parts(circuit, wires)
    for page in PAGES:
        path = HERE / page
        yield path, pages.fill(path.read_text(encoding="utf-8"), made, path)


def out_of_date() -> list[Path]:
    """Return the text files that differ from what would be made, and prints whose sources have changed."""
    circuit = build()
    stale = [
        path
        for path, text in text_files(circuit, route(circuit))
        if not path.exists() or path.read_text(encoding="utf-8") != text
    ]
    if not printing.FINGERPRINT.exists() or printing.FINGERPRINT.read_text("utf-8") != printing.fingerprint():
        stale.append(printing.FINGERPRINT)
    return stale


def read_checks() -> list[dict[str, str]]:
    """Return the rows of the last simulation, as committed."""
    with CHECKS.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def write_checks() -> bool:
    """Run the circuit checks and write their table; return False without the simulator."""
    from hardware.spice.checks import all_results
    from hardware.spice.deck import have_simulator

    if not have_simulator():
        return False
    with CHECKS.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(("check", "measured", "unit", "bound", "kept"))
        for result in all_results():
            kept = "yes" if result.passed else "NO"
            writer.writerow((result.name, f"{result.measured:.3g}", result.unit, result.bound, kept))
    return True


def write_all() -> None:
    """Write everything, and say what could not be made here."""
    MADE.mkdir(exist_ok=True)
    if not write_checks():
        print("ngspice is not installed: circuit-checks.csv stays as it is")
    if not printing.make():
        print("openscad is not installed: printable files and their pictures stay as they are")
    circuit = build()
    if not router.TRACKS.exists() or not router.is_current(circuit, router.read()):
        router.write(router.route(circuit))
    wires = route(circuit)
    for fault in too_near(circuit, ((wire.net, wire.holes) for wire in wires if not wire.insulated)):
        print(f"too near: {fault}")
    for path, text in text_files(circuit, wires):
        path.write_text(text, encoding="utf-8")
    for name, canvas in drawings(circuit, wires):
        if name in WITH_PNG:
            canvas.png(MADE / f"{name}.png")
    if not views.write():
        print("gerbonara is not installed: the views of the printed board stay as they are")
    usual, most = budget.total_ma()
    print(f"made; the box draws {usual:.0f} mA, at most {most:.0f} mA")


def main() -> int:
    """Write, or check."""
    if "--check" not in sys.argv[1:]:
        write_all()
        return 0
    stale = out_of_date()
    for path in stale:
        print(f"out of date: {path.relative_to(HERE.parent)}; run python -m hardware.generate")
    return 1 if stale else 0


if __name__ == "__main__":
    sys.exit(main())
