"""A piece that lies on the glass, in its own millimetres, and how it is laid into the picture."""

from dataclasses import dataclass

import numpy as np
from PIL import Image


@dataclass(frozen=True)
class Layer:
    """Reflectance, cover (1 where the piece is) and shade on what lies about it; `pad_mm` all round."""

    light: np.ndarray
    cover: np.ndarray
    shade: np.ndarray
    pitch_mm: float
    pad_mm: float

    @property
    def size_mm(self) -> tuple[float, float]:
        """Across and down, without the pad."""
        down, across = (side * self.pitch_mm - 2 * self.pad_mm for side in self.cover.shape)
        return across, down


@dataclass(frozen=True)
class Place:
    """Where the middle of a piece lies in the picture [mm], and how it is turned."""

    x_mm: float
    y_mm: float
    angle_deg: float

    def at(self, across_mm: np.ndarray, down_mm: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Points of the piece, about its middle, in the picture [mm]."""
        cos, sin = np.cos(np.radians(self.angle_deg)), np.sin(np.radians(self.angle_deg))
        return (
            self.x_mm + cos * across_mm - sin * down_mm,
            self.y_mm + sin * across_mm + cos * down_mm,
        )


def corners(size_mm: tuple[float, float], place: Place) -> np.ndarray:
    """Its four corners in the picture, from its left top clockwise [mm]."""
    across, down = size_mm
    x, y = place.at(np.array([-1, 1, 1, -1]) * across / 2, np.array([-1, -1, 1, 1]) * down / 2)
    return np.stack([x, y], axis=1)


def distances(
    u_mm: np.ndarray, v_mm: np.ndarray, size_mm: tuple[float, float], wobble: np.ndarray
) -> list[np.ndarray]:
    """How far inside each edge a point is [mm]: left, top, right, bottom; scissors make them wave."""
    across, down = size_mm

    def wave(places: np.ndarray, row: np.ndarray, length: float) -> np.ndarray:
        slow = np.sin(2 * np.pi * row[1] * places / length + row[2])
        return row[0] * (0.7 * slow + 0.6 * (places / length - 0.5))

    return [
        u_mm[None, :] - wave(v_mm, wobble[0], down)[:, None],
        v_mm[:, None] - wave(u_mm, wobble[1], across)[None, :],
        across - u_mm[None, :] - wave(v_mm, wobble[2], down)[:, None],
        down - v_mm[:, None] - wave(u_mm, wobble[3], across)[None, :],
    ]


def cover_and_shade(
    inside_mm: list[np.ndarray], soft_mm: float, shadow: tuple[float, ...], shadow_mm: float
) -> tuple[np.ndarray, np.ndarray]:
    """Where the piece is, and the thin shadow of its edges: the light of a scanner comes from one side."""
    nearest = np.minimum(np.minimum(inside_mm[0], inside_mm[2]), np.minimum(inside_mm[1], inside_mm[3]))
    cover = np.clip(nearest / soft_mm + 0.5, 0, 1).astype(np.float32)
    shade = np.ones_like(cover)
    out = nearest < 0
    far = np.exp(nearest[out] / shadow_mm)
    strength = np.zeros_like(far)
    for distance, share in zip(inside_mm, shadow, strict=True):
        strength = np.where(np.broadcast_to(distance, nearest.shape)[out] == nearest[out], share, strength)
    shade[out] = 1 - strength * far
    return cover, shade


def lay(picture: np.ndarray, layer: Layer, place: Place, px_per_mm: float) -> np.ndarray:
    """Lay a piece into the picture of reflectances; what is returned says where it is (0 to 1)."""
    across, down = layer.size_mm
    pad = layer.pad_mm
    points = corners((across + 2 * pad, down + 2 * pad), place) * px_per_mm
    height, width = picture.shape
    left, top = np.maximum(np.floor(points.min(axis=0)).astype(int), 0)
    right, bottom = np.minimum(np.ceil(points.max(axis=0)).astype(int), [width, height])
    back = _affine(layer, place, px_per_mm, (int(left), int(top)))
    size = (int(right - left), int(bottom - top))

    def turned(plane: np.ndarray, fill: float) -> np.ndarray:
        image = Image.fromarray(plane.astype(np.float32, copy=False))
        image = image.transform(size, Image.Transform.AFFINE, back, Image.Resampling.BILINEAR, fillcolor=fill)
        return np.asarray(image)

    part = picture[top:bottom, left:right]
    cover = turned(layer.cover, 0.0)
    part *= turned(layer.shade, 1.0)
    part += cover * (turned(layer.light, 1.0) - part)
    where = np.zeros_like(picture)
    where[top:bottom, left:right] = cover
    return where


def _affine(
    layer: Layer, place: Place, px_per_mm: float, corner: tuple[int, int]
) -> tuple[float, float, float, float, float, float]:
    """From pixels of the picture to those of the layer."""
    cos, sin = np.cos(np.radians(place.angle_deg)), np.sin(np.radians(place.angle_deg))
    scale = 1 / (px_per_mm * layer.pitch_mm)
    x0 = corner[0] - place.x_mm * px_per_mm
    y0 = corner[1] - place.y_mm * px_per_mm
    height, width = layer.cover.shape
    return (
        scale * cos,
        scale * sin,
        scale * (cos * x0 + sin * y0) + width / 2,
        -scale * sin,
        scale * cos,
        scale * (-sin * x0 + cos * y0) + height / 2,
    )
