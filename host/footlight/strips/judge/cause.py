"""What the bands point to when the picture is wrong: a cause, not only a dose. Pure comparison.

The order of thought is the trade's (common practice, no source): the zero step first, since nothing that the
second exposure does can mend it; then the anchor, which shows all the black there is; then the whites.
"""

from dataclasses import dataclass

ZERO_VEIL_D = 0.04
STAIN_D = 0.04
# The fullest black of matt paper is 1.3 to 1.45 D, of gloss 1.9 to 2.2 (common practice, no source): below
# the
# first no paper's black is full, between them only the paper's own black can tell.
FULL_BLACK_D, GLOSS_BLACK_D = 1.2, 1.6
RISE_D = 0.02
_SAME = 0.6

CONFOUNDERS = (
    "Before you trust a change, see that these were as always: both developers' age and temperature, how old"
    " the bleach was, the clearing time, the rinses, fresh water under the lens, how long the sheet lay wet."
)
DRY = "Scan dry only: paper gains or loses black while it dries."


@dataclass(frozen=True)
class Signs:
    """What the strip shows [D], None where it has no such band.

    paper_d: the bare base, where known. zero_white_d, zero_white2_d: whites at zero second exposure.
    anchor_d: the fullest black. rise_d, rise2_d: of the two whites at the highest step. blue_d: blue above
    green at the zero step; paper_blue_d: the same of the bare base.
    """

    anchor_d: float | None
    zero_white_d: float | None = None
    zero_white2_d: float | None = None
    zero_black_d: float | None = None
    rise_d: float | None = None
    rise2_d: float | None = None
    blue_d: float | None = None
    paper_blue_d: float | None = None
    paper_d: float | None = None
    turned_d: float = 0.0

    @property
    def stain_d(self) -> float | None:
        """What blue has beyond the base's own colour [D]: a warm base is none. None: that is not known."""
        if self.blue_d is None or self.paper_blue_d is None:
            return None
        return self.blue_d - self.paper_blue_d


def causes(signs: Signs) -> tuple[str, ...]:
    """What the bands point to, the weightiest first; empty where nothing is out of the ordinary."""
    return tuple(
        text for text in (_zero(signs), _stain(signs), _anchor(signs), _whites(signs), _turned(signs)) if text
    )


def _zero(signs: Signs) -> str:
    if signs.zero_white_d is None or signs.paper_d is None:
        return ""
    veil = signs.zero_white_d - signs.paper_d
    if veil < ZERO_VEIL_D or (signs.stain_d or 0) > 0.7 * veil:
        return ""
    return (
        f"White is veiled by {veil:.2f} D with no second exposure at all: silver that the bleach left,"
        " stain, or safelight after the bleach. Bleach longer or fresher, clear fully, then the fog test"
    )


def _stain(signs: Signs) -> str:
    if signs.stain_d is None or signs.stain_d < STAIN_D:
        return ""
    return (
        f"White is {signs.stain_d:.2f} D denser in blue than the bare base is: stain, not veil. Rinse longer"
        " between bleach, clearing and developer, and change the clearing bath"
    )


def doubts(signs: Signs) -> tuple[str, ...]:
    """What may be a cause, and may be none."""
    return tuple(text for text in (_warm(signs), _matt(signs)) if text)


def _warm(signs: Signs) -> str:
    if signs.blue_d is None or signs.blue_d < STAIN_D or signs.paper_blue_d is not None:
        return ""
    return (
        f"white is {signs.blue_d:.2f} D denser in blue than in green: a warm base, or stain; the base's own"
        " densities in red, green and blue tell"
    )


def _matt(signs: Signs) -> str:
    if signs.anchor_d is None or not FULL_BLACK_D <= signs.anchor_d < GLOSS_BLACK_D:
        return ""
    return (
        f"the anchor has {signs.anchor_d:.2f} D: all that a matt paper has, and short of a glossy"
        f" one's black;"
        " hold it against a good print on the same paper"
    )


def _anchor(signs: Signs) -> str:
    if signs.anchor_d is None or signs.anchor_d >= FULL_BLACK_D:
        return ""
    return (
        f"Even ten times the dose gives only {signs.anchor_d:.2f} D: no second exposure will mend that. Too"
        " much pre-flash, safelight before the first development, or a second developer that is weak or cold"
    )


def _whites(signs: Signs) -> str:
    if signs.rise_d is None or signs.rise_d < RISE_D:
        return ""
    if signs.rise2_d is not None and signs.rise2_d > _SAME * signs.rise_d:
        return (
            "Veil grows in both white bands alike: halide was left, or formed anew, after the bleach. Bleach"
            " and rinse longer, change the rinse water (chloride), and see how old the bleach is"
        )
    if signs.rise2_d is None:
        return "Veil grows with the second exposure; a strip with a second white band would tell why"
    return (
        "Veil grows mostly in 'just white', little in two stops more: too little first exposure or first"
        " development. Give the whites more camera exposure, or develop longer"
    )


def _turned(signs: Signs) -> str:
    if signs.turned_d < 0.02:
        return ""
    return (
        f"The anchor is {signs.turned_d:.2f} D lighter than the steps below it: black turns back with too"
        " much light on this paper; the fullest step counts as full black"
    )
