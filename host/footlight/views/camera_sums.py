"""Sums of the view camera in words: a time, bellows, a meter reading said in every way."""

from footlight.camera import meter
from footlight.camera.exposure import Exposure
from footlight.camera.extension import Extension
from footlight.camera.page import scale
from footlight.errors import InputError, field
from footlight.light.uncertainty import Term
from footlight.quantities import FStop, format_seconds, format_stops


def time_lines(exposure: Exposure) -> list[str]:
    """The answer first, then its arithmetic."""
    contrast = [f"  {exposure.contrast}"] if exposure.contrast else []
    return [exposure.summary, *(f"  {step}" for step in exposure.steps), *contrast]


def not_racked() -> InputError:
    """The error for bellows of which nothing was said."""
    lens, draw, image, subject = (field(name) for name in ("lens", "draw", "image", "subject"))
    return InputError(f"bellows: give {lens} and {draw}, or {image} and {subject}")


def bellows_lines(out: Extension, doubt: Term, marked: FStop | None, plain_s: float | None) -> list[str]:
    """Factor and stops; what a marked stop really is, and what a time at infinity [s] becomes."""
    off = f"± {doubt.stops:.2f} stop, from {doubt.cause} ({doubt.detail})"
    lines = [
        f"× {out.factor:.4g} ({format_stops(out.stops)}), {off}",
        f"  {out.said}: {scale(out.magnification)}",
    ]
    if marked:
        lines.append(f"  {marked} is really f/{out.true_stop(marked).exact_value:.3g}")
    if plain_s:
        lines.append(f"  {format_seconds(plain_s)} → {format_seconds(plain_s * out.factor)}")
    return lines


def scene_lines(scene: meter.Scene, c: float, k: float) -> list[str]:
    """A reading as exposure value, lux and luminance, with the meter's constants."""
    return [
        f"EV {scene.ev100:.2f} at ISO 100",
        f"{_figures(meter.lux_of(scene.ev100, c))} lx incident (C = {c:g})",
        f"{_figures(meter.luminance_of(scene.ev100, k))} cd/m2 luminance (K = {k:g})",
    ]


def _figures(value: float) -> str:
    """Four figures without an exponent: `20000`, `0.125`."""
    return f"{value:.0f}" if value >= 1000 else f"{value:.4g}"
