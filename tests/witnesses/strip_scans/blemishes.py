"""Dust, hairs, drops of water and newton rings, drawn into the picture of reflectances."""

import numpy as np
from tests.witnesses.strip_scans.scenario import Scenario

RINGS_RELATIVE = 0.012
RINGS_ABSOLUTE = 0.0012


def spoil(
    light: np.ndarray, on_strip: np.ndarray, scenario: Scenario, px_per_mm: float, rng: np.random.Generator
) -> None:
    """All that the scenario has, in place."""
    many = scenario.blemishes
    if many.ring_share:
        _rings(light, on_strip, many.ring_share, px_per_mm, rng)
    for _ in range(many.drops):
        _drop(light, on_strip, px_per_mm, rng)
    for _ in range(many.dust):
        _speck(light, px_per_mm, rng)
    for _ in range(many.hairs):
        _hair(light, px_per_mm, rng)


def _rings(
    light: np.ndarray, on_strip: np.ndarray, share: float, px_per_mm: float, rng: np.random.Generator
) -> None:
    """Interference where a smooth sheet touches the glass: the gap grows with the square of the radius."""
    height, width = light.shape
    radius = rng.uniform(8, 25) * px_per_mm
    x0, y0 = rng.uniform(0, width), rng.uniform(0, height)
    left, right = int(max(0, x0 - radius)), int(min(width, x0 + radius))
    top, bottom = int(max(0, y0 - radius)), int(min(height, y0 + radius))
    across = ((np.arange(left, right) - x0) / radius) ** 2
    down = ((np.arange(top, bottom) - y0) / radius) ** 2 * rng.uniform(0.5, 1.6)
    far = (across[None, :] + down[:, None]).astype(np.float32)
    wave = np.cos(2 * np.pi * rng.uniform(6, 14) * far) * np.exp(-3 * far)
    part = light[top:bottom, left:right]
    where = on_strip[top:bottom, left:right] * np.float32(share)
    part += where * wave * (RINGS_RELATIVE * part + RINGS_ABSOLUTE)
    np.maximum(part, 1e-3, out=part)


def _box(
    light: np.ndarray, x: float, y: float, reach: float
) -> tuple[np.ndarray, np.ndarray, np.ndarray] | None:
    """The part of the picture about a point, and where it lies from the point [pixel]."""
    height, width = light.shape
    left, right = int(max(0, x - reach)), int(min(width, x + reach + 2))
    top, bottom = int(max(0, y - reach)), int(min(height, y + reach + 2))
    if left >= right or top >= bottom:
        return None
    return light[top:bottom, left:right], np.arange(left, right) - x, np.arange(top, bottom)[:, None] - y


def _drop(light: np.ndarray, on_strip: np.ndarray, px_per_mm: float, rng: np.random.Generator) -> None:
    """A drop that dried (a tide line), or is still wet: darker within, a bright point where it bulges."""
    radius = rng.uniform(0.7, 4.0) * px_per_mm
    places = np.argwhere(on_strip[::16, ::16] > 0.5)
    y, x = places[rng.integers(len(places))] * 16 + 8
    box = _box(light, float(x), float(y), 1.5 * radius)
    if box is None:
        return
    part, across, down = box
    angle = np.arctan2(down, across)
    far = np.hypot(across, down) / radius
    far = far * (1 + 0.12 * np.cos(2 * angle + rng.uniform(0, 6)) + 0.06 * np.cos(3 * angle))
    rim = np.exp(-(((far - 1) / 0.08) ** 2)) * rng.uniform(0.01, 0.07)
    within = np.clip((1 - far) / 0.1, 0, 1) * rng.uniform(-0.012, 0.03)
    part *= (10.0 ** -(rim + within)).astype(np.float32)
    if rng.uniform() < 0.3:
        glint = np.exp(-(((across - 0.3 * radius) ** 2 + (down + 0.3 * radius) ** 2) / (0.12 * radius) ** 2))
        part += (0.5 * glint).astype(np.float32) * np.maximum(0.9 - part, 0)


def _blend(part: np.ndarray, share: np.ndarray, tone: float) -> None:
    part += share.astype(np.float32) * (np.float32(tone) - part)


def _tone(rng: np.random.Generator) -> float:
    """Dust is pale fluff, or dark grit."""
    return float(rng.uniform(0.25, 0.7) if rng.uniform() < 0.6 else rng.uniform(0.02, 0.2))


def _speck(light: np.ndarray, px_per_mm: float, rng: np.random.Generator) -> None:
    height, width = light.shape
    radius = min(0.35, 0.03 * rng.pareto(2.0) + 0.03) * px_per_mm
    box = _box(light, rng.uniform(0, width), rng.uniform(0, height), radius + 2)
    if box is None:
        return
    part, across, down = box
    stretch = rng.uniform(0.5, 2.0)
    far = np.hypot(across, down * stretch)
    soft = max(1.0, 0.02 * px_per_mm)
    _blend(part, np.clip((radius - far) / soft + 0.5, 0, 1) * min(1.0, radius / 0.7), _tone(rng))


def _hair(light: np.ndarray, px_per_mm: float, rng: np.random.Generator) -> None:
    """A fibre that bends as it lies, in short dots one by one."""
    height, width = light.shape
    thick = max(0.6, rng.uniform(0.02, 0.06) * px_per_mm)
    tone, share = _tone(rng), min(1.0, rng.uniform(0.03, 0.08) * px_per_mm)
    step = thick * 0.7
    count = min(900, int(rng.uniform(3, 18) * px_per_mm / step))
    turns = rng.normal(0, 0.02, count).cumsum() * np.sqrt(step / px_per_mm / 0.05)
    heading = rng.uniform(0, 2 * np.pi) + turns.cumsum() * 0.05 + rng.uniform(-0.01, 0.01) * np.arange(count)
    xs = rng.uniform(0, width) + (np.cos(heading) * step).cumsum()
    ys = rng.uniform(0, height) + (np.sin(heading) * step).cumsum()
    for x, y in zip(xs, ys, strict=True):
        box = _box(light, float(x), float(y), thick + 1)
        if box is not None:
            part, across, down = box
            _blend(part, 0.6 * share * np.clip(thick / 2 - np.hypot(across, down) + 0.5, 0, 1), tone)
