"""How graphs look: one typeface, greys, shapes and hatching instead of colours, rules that stay behind."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from footlight import whole_file
from footlight.errors import FootlightError, InputError

ENDINGS = (".svg", ".png", ".pdf")
# By how many baths (or the like) ago: the present one is black and full, earlier ones grow pale and hollow.
MARKS = (("o", "0.0", "0.0"), ("s", "0.35", "white"), ("^", "0.5", "white"), ("D", "0.6", "white"))
_RULE = "0.85"


def new(width_in: float, height_in: float) -> Any:
    """A figure [inches]. Raises FootlightError when the drawing library is missing."""
    try:
        from matplotlib.figure import Figure
    except ModuleNotFoundError:
        raise FootlightError("pictures need one more package: pip install 'footlight[pictures]'") from None
    return Figure(figsize=(width_in, height_in), layout="constrained")


def check_name(path: Path, replacing: bool) -> None:
    """Raise InputError, before anything is worked out, for an ending that is no picture's, or where there is
    such a file already."""
    if path.suffix.lower() not in ENDINGS:
        raise InputError(f"{path}: a picture's name ends in {', '.join(ENDINGS)}")
    if not path.absolute().parent.is_dir():
        raise InputError(f"{path}: there is no such folder")
    if not replacing:
        whole_file.refuse_existing(path, whole_file.OR_REPLACE)


def save(figure: Any, path: Path) -> None:
    """Write it; the same data gives the same SVG. Raises InputError where the file cannot be written."""
    import matplotlib

    dated = {"metadata": {"Date": None}} if path.suffix.lower() == ".svg" else {}
    # Whether another may be written over was asked by `check_name`.
    with matplotlib.rc_context({"svg.hashsalt": "graphs"}), whole_file.whole(path, replacing=True) as part:
        figure.savefig(part, dpi=110, **dated)


def rule(axes: Any) -> None:
    """Thin rules behind, and no frame above and at the right."""
    axes.grid(color=_RULE, linewidth=0.5)
    axes.set_axisbelow(True)
    axes.tick_params(labelsize=8)
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)


def say_empty(axes: Any, text: str) -> None:
    """A graph without data says so."""
    axes.text(0.5, 0.5, text, transform=axes.transAxes, ha="center", va="center", fontsize=8, color="0.4")


def mark(axes: Any, x: Sequence[float], y: Sequence[float], ago: int) -> None:
    """Points of the bath (or the like) that was so many before the present one."""
    shape, edge, face = MARKS[min(ago, len(MARKS) - 1)]
    axes.plot(x, y, shape, markeredgecolor=edge, markerfacecolor=face, markersize=5, linestyle="none")
