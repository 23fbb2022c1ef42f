"""The files that a fab takes: Gerber (RS-274X with attributes) and Excellon, the same every time."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from hardware.pcb.shapes import SIZE_MM, Flash, Hole, Layers, Stroke

MADE = Path(__file__).parents[1] / "made" / "pcb"
STEM = "footlight"
HEAD = "G04 Footlight controller; made from hardware/circuit.py; never built*\n%FSLAX46Y46*%\n%MOMM*%\n"


def files(layers: Layers) -> Iterator[tuple[str, str]]:
    """Yield each file's name and text."""
    top, bottom = layers.copper
    yield f"{STEM}-F_Cu.gbr", gerber("Copper,L1,Top", top)
    yield f"{STEM}-B_Cu.gbr", gerber("Copper,L2,Bot", bottom)
    yield f"{STEM}-F_Mask.gbr", gerber("Soldermask,Top", layers.mask, "Negative")
    yield f"{STEM}-B_Mask.gbr", gerber("Soldermask,Bot", layers.mask, "Negative")
    yield f"{STEM}-F_Silkscreen.gbr", gerber("Legend,Top", layers.silk)
    yield f"{STEM}-Edge_Cuts.gbr", gerber("Profile,NP", _edge())
    yield f"{STEM}-PTH.drl", excellon(layers.plated, "Plated,1,2,PTH")
    yield f"{STEM}-NPTH.drl", excellon(layers.bare, "NonPlated,1,2,NPTH")


def _edge() -> list[Stroke]:
    w, h = SIZE_MM
    corners = [(0.0, 0.0), (w, 0.0), (w, h), (0.0, h)]
    return [Stroke(a, b, 0.1) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)]


def gerber(function: str, marks: Iterable[Flash | Stroke], polarity: str = "Positive") -> str:
    """Return one layer."""
    marks = list(marks)
    shapes = sorted({_aperture(mark) for mark in marks})
    numbers = {shape: 10 + k for k, shape in enumerate(shapes)}
    lines = [f"%TF.FileFunction,{function}*%", f"%TF.FilePolarity,{polarity}*%", "%LPD*%", "G01*"]
    lines += [f"%ADD{numbers[shape]}{shape}*%" for shape in shapes]
    for shape in shapes:
        lines.append(f"D{numbers[shape]}*")
        for mark in marks:
            if _aperture(mark) == shape:
                lines += _draw(mark)
    return HEAD + "\n".join([*lines, "M02*"]) + "\n"


def _aperture(mark: Flash | Stroke) -> str:
    if isinstance(mark, Stroke):
        return f"C,{mark.width_mm:.6f}"
    return f"R,{mark.size_mm:.6f}X{mark.size_mm:.6f}" if mark.is_square else f"C,{mark.size_mm:.6f}"


def _draw(mark: Flash | Stroke) -> list[str]:
    if isinstance(mark, Stroke):
        return [f"{_xy(mark.a)}D02*", f"{_xy(mark.b)}D01*"]
    return [f"{_xy(mark.at)}D03*"]


def _xy(at: tuple[float, float]) -> str:
    return f"X{round(at[0] * 1e6)}Y{round(at[1] * 1e6)}"


def excellon(holes: Iterable[Hole], function: str) -> str:
    """Return one drill file."""
    holes = list(holes)
    tools = sorted({hole.drill_mm for hole in holes})
    lines = ["M48", f"; #@! TF.FileFunction,{function}", "FMAT,2", "METRIC,TZ"]
    lines += [f"T{k}C{tool:.3f}" for k, tool in enumerate(tools, start=1)]
    lines += ["%", "G05"]
    for k, tool in enumerate(tools, start=1):
        lines.append(f"T{k}")
        lines += [f"X{h.at[0]:.4f}Y{h.at[1]:.4f}" for h in holes if h.drill_mm == tool]
    return "\n".join([*lines, "T0", "M30"]) + "\n"


def write(layers: Layers, folder: Path = MADE) -> None:
    """Write all files."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in files(layers):
        (folder / name).write_text(text, encoding="utf-8")
