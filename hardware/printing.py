"""Printable files of box and pedal, made with OpenSCAD where it is installed, and their dimensions."""

from __future__ import annotations

import ast
import hashlib
import operator
import re
import shutil
import subprocess
from pathlib import Path

FOLDER = Path(__file__).with_name("enclosure")
DIMENSIONS = FOLDER / "dimensions.scad"
MADE = Path(__file__).with_name("made") / "prints"
FINGERPRINT = MADE / "sources.sha256"
TOOL = "openscad"

# Name of the printed part: the file it is in.
PRINTS = {
    "box": "box.scad",
    "lid": "box.scad",
    "usb-plug": "box.scad",
    "bar": "box.scad",
    "base": "pedal.scad",
    "treadle": "pedal.scad",
    "floor": "pedal.scad",
}
# Pictures: the file and the camera (shift, turn, distance).
PICTURES = {
    "box": ("box.scad", "0,0,40,60,0,205,520"),
    "pedal": ("pedal.scad", "0,0,20,65,0,35,480"),
}

_ARITHMETIC = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
}


def read_dimensions(source: Path = DIMENSIONS) -> dict[str, float]:
    """Return every dimension of dimensions.scad by name [mm]."""
    values: dict[str, float] = {}
    for name, formula in re.findall(r"^(\w+) = ([^;]+);", source.read_text(encoding="utf-8"), re.MULTILINE):
        values[name] = _value(ast.parse(formula, mode="eval").body, values)
    return values


def _value(term: ast.expr, known: dict[str, float]) -> float:
    if isinstance(term, ast.Constant) and isinstance(term.value, int | float):
        return float(term.value)
    if isinstance(term, ast.Name):
        return known[term.id]
    if isinstance(term, ast.UnaryOp) and isinstance(term.op, ast.USub):
        return -_value(term.operand, known)
    if isinstance(term, ast.BinOp):
        return _ARITHMETIC[type(term.op)](_value(term.left, known), _value(term.right, known))
    raise ValueError(f"dimensions.scad: {ast.unparse(term)} is no sum of numbers and names above it")


def fingerprint() -> str:
    """Return a hash of everything that the printable files are made from."""
    text = b"".join(path.read_bytes() for path in sorted(FOLDER.glob("*.scad")))
    return hashlib.sha256(text).hexdigest() + "\n"


def make() -> bool:
    """Write the printable files and pictures; return False, and write nothing, without OpenSCAD."""
    if shutil.which(TOOL) is None:
        return False
    MADE.mkdir(parents=True, exist_ok=True)
    for part, source in PRINTS.items():
        target = MADE / f"{'pedal-' if source == 'pedal.scad' else ''}{part}.stl"
        _run("-D", f'part="{part}"', "--export-format", "binstl", "-o", str(target), str(FOLDER / source))
    for name, (source, camera) in PICTURES.items():
        view = ("--imgsize=900,675", "--colorscheme=Tomorrow", f"--camera={camera}")
        _run(*view, "-o", str(MADE.parent / f"{name}.png"), str(FOLDER / source))
    FINGERPRINT.write_text(fingerprint(), encoding="utf-8")
    return True


def _run(*arguments: str) -> None:
    """OpenSCAD draws pictures only with a display: a virtual one is taken where there is `xvfb-run`."""
    screen = ("xvfb-run", "-a") if shutil.which("xvfb-run") else ()
    subprocess.run([*screen, TOOL, *arguments], check=True, capture_output=True, timeout=300)
