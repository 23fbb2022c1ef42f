"""Families of black: what second exposure makes of unexposed paper. x in stops; black 0 … 1 of its span.

hits      grains hit at random (Weibull): one of the two forms that are fitted
logistic  a symmetrical S over log dose: the other
normal    grains whose sensitivities scatter normally over log dose
mixed     two emulsions of different speed, as in variable-contrast paper
turning   black falls back with much light: not monotone
"""

import numpy as np
from numpy.typing import NDArray

FAMILIES = ("hits", "logistic", "normal", "mixed", "turning")


def share(family: str, x: NDArray, steep: float) -> NDArray:
    """Black as a share of the span, at x stops from the curve's own middle; steep: about 1."""
    from scipy.special import ndtr

    x = np.asarray(x, float)
    if family == "hits":
        return _hits(x, steep)
    if family == "logistic":
        return 1 / (1 + np.exp(-1.6 * steep * np.clip(x, -40, 40)))
    if family == "normal":
        return np.asarray(ndtr(steep * np.clip(x, -40, 40)))
    if family == "mixed":
        return 0.65 * _hits(x, steep) + 0.35 * _hits(x - 1.2, 1.15 * steep)
    if family == "turning":
        return _hits(x, steep) * (1 - 0.10 / (1 + np.exp(-2.0 * (x - 4.2))))
    raise ValueError(f"no such family of papers: {family}")


def _hits(x: NDArray, steep: float) -> NDArray:
    return 1 - np.exp(-(2.0 ** (steep * np.clip(x, -40, 40))))
