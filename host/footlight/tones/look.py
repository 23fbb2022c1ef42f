"""What a density looks like: lightness, and the word a printer has for it."""

from footlight.tones.curve import Curve
from footlight.tones.learning import Tone

WORDS = ("full black", "dark with texture", "middle", "light with texture", "paper white")
# Shares of the net density and lightnesses at which one word ends; common practice, no source, but for the
# light end, which is where ISO 6846 (from memory) reads it.
_BLACK_SHARE, _WHITE_D, _DARK_L, _LIGHT_L = 0.95, 0.04, 40.0, 70.0


def lightness(density_d: float) -> float:
    """CIE 1976 L* of a reflection density [D], Y = 10 to the minus D (CIE 15)."""
    luminance = 10.0**-density_d
    if luminance > (6 / 29) ** 3:
        return 116 * luminance ** (1 / 3) - 16
    return luminance * (29 / 3) ** 3


def word(density_d: float, curve: Curve) -> str:
    """One of WORDS for a density [D] on this paper."""
    if density_d - curve.white_d <= _WHITE_D:
        return WORDS[4]
    if density_d - curve.white_d >= _BLACK_SHARE * (curve.black_d - curve.white_d):
        return WORDS[0]
    light = lightness(density_d)
    return WORDS[1] if light < _DARK_L else WORDS[2] if light < _LIGHT_L else WORDS[3]


def words(tone: Tone, curve: Curve) -> tuple[str, ...]:
    """The word of a tone, and those that its band reaches besides."""
    own = word(tone.density_d, curve)
    ends = (word(end, curve) for end in (tone.high_d, tone.low_d))
    return tuple(dict.fromkeys((own, *ends)))
