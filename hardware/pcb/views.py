"""How the printed board looks from either side: drawn by gerbonara from the finished files."""

from __future__ import annotations

import warnings

from hardware.pcb.gerbers import MADE


def write() -> bool:
    """Write both views as SVG; return False, and write nothing, without gerbonara."""
    try:
        from gerbonara import LayerStack
    except ImportError:
        return False
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        stack = LayerStack.open(MADE)
        for side in ("top", "bottom"):
            (MADE / f"view-{side}.svg").write_text(str(stack.to_pretty_svg(side=side)), encoding="utf-8")
    return True
