"""The campaign on the emulated chip: a run and a mishap in it, over and over. Needs FOOTLIGHT_UF2."""

import importlib.util
from collections import Counter

from tests.emulated.chip_image import UF2
from tests.soak.bits import Outcome

MISSING = (
    ""
    if UF2 and importlib.util.find_spec("rp2040py")
    else "set FOOTLIGHT_UF2 to a MicroPython RPI_PICO image (.uf2), and install rp2040py, to run it"
)


def mishaps(seed: int) -> Outcome:
    """One trial of each kind."""
    from tests.emulated import mishaps as on_chip

    breaches, counts = [], Counter[str]()
    for kind in on_chip.KINDS:
        breaches += on_chip.trial(kind, seed)
        counts[kind.__name__] += 1
    return len(on_chip.KINDS), breaches, counts
