"""Sequence files: a file -> a checked sequence -> the controller's program.

    >>> from pathlib import Path
    >>> from footlight import sequence
    >>> print_run = sequence.load(Path("reversal-print.toml"))     # Sequence, or InputError: one line
    >>> compiled = sequence.compile(print_run)                     # Compiled: program, data, sha256, ...
    >>> [light.text for light in compiled.arithmetic]
    ['6.0 s at 620 mm f/11 → 10.0 s at 800 mm f/11, ± 0.08 stop']
    >>> sequence.timeline(compiled)[0]                             # Span: planned times in ms

The file format is described in `docs/sequences.md`, which is made from `step_keys` and `setup_keys`.
"""

from footlight.sequence import spans
from footlight.sequence.compiler import Compiled, compile
from footlight.sequence.exposures import Arithmetic
from footlight.sequence.model import Sequence
from footlight.sequence.reading import load, load_kept, load_text
from footlight.sequence.setups import PlacedSetup, Setups, load_setups
from footlight.sequence.spans import Judged, Span

__all__ = [
    "Arithmetic",
    "Compiled",
    "Judged",
    "PlacedSetup",
    "Sequence",
    "Setups",
    "Span",
    "compile",
    "load",
    "load_kept",
    "load_setups",
    "load_text",
    "timeline",
]


def timeline(compiled: Compiled, judged: Judged = "middle") -> list[Span]:
    """The planned time line: one `Span` for each step of each sheet, in order, times in ms.

    judged: when steps judged by eye end, "least", "middle" (half-way from least to most) or "most".
    """
    return spans.timeline(compiled.program, judged)
