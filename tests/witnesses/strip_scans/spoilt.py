"""Scans from which no dose may ever come: the strip lies wrong, is not there, or the words do not fit it."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
from PIL import Image
from tests.witnesses.strip_scans import fields
from tests.witnesses.strip_scans.fields import Spectrum
from tests.witnesses.strip_scans.picture import Picture, picture
from tests.witnesses.strip_scans.scan import pixels, save, words_of
from tests.witnesses.strip_scans.scenario import Scenario, scenario

Light = np.ndarray
BARE_D = 0.07


def face_down(drawn: Picture, _: np.random.Generator) -> Light:
    """The back of the paper is white all over."""
    return drawn.light + drawn.on_strip * (np.float32(10**-BARE_D) - drawn.light)


def mirrored(drawn: Picture, _: np.random.Generator) -> Light:
    """As a program shows it that was told to mirror."""
    return drawn.light[:, ::-1]


def clipped_black(drawn: Picture, _: np.random.Generator) -> Light:
    """An automatic correction has set the black point within the picture."""
    dark = np.float32(1.6 * np.quantile(drawn.light[::8, ::8], 0.02))
    return np.clip((drawn.light - dark) / (1 - dark), 0, 1)


def clipped_white(drawn: Picture, _: np.random.Generator) -> Light:
    """The same for white: all of the pale tones are one."""
    return np.minimum(drawn.light * np.float32(1.5), 1)


def page_of_text(drawn: Picture, rng: np.random.Generator) -> Light:
    """Lines of dark marks of many widths."""
    light = np.full_like(drawn.light, 0.85)
    height, width = light.shape
    line = max(12, height // 40)
    for top in range(2 * line, height - 2 * line, 2 * line):
        x = 2 * line
        while x < width * rng.uniform(0.75, 0.95):
            letter = int(rng.integers(line // 4, line))
            light[top + int(rng.integers(0, line // 3)) : top + line, x : x + max(1, letter // 3)] = 0.05
            x += letter + 1 + (line if rng.uniform() < 0.15 else 0)
    return light


def photograph(drawn: Picture, rng: np.random.Generator) -> Light:
    """A print of something: soft tones of every size, no steps."""
    coarse = fields.gaussian(Spectrum("power", 25.0), (160, 240), 0.5, rng).astype(np.float32)
    tones = np.asarray(Image.fromarray(coarse).resize(drawn.light.shape[::-1], Image.Resampling.BICUBIC))
    return np.clip(10 ** -(0.8 + 0.45 * tones), 0.005, 0.9).astype(np.float32)


def telephone(drawn: Picture, rng: np.random.Generator) -> Light:
    """Held aslant over it: lines run together, and the light falls off to the corners."""
    height, width = drawn.light.shape
    slant = rng.uniform(0.12, 0.25)
    corners = (slant * width, 0, 0, height, width, height, (1 - slant) * width, 0)
    view = Image.fromarray(drawn.light).transform(
        (width, height), Image.Transform.QUAD, corners, Image.Resampling.BILINEAR
    )
    x, y = np.linspace(-1, 1, width, dtype=np.float32), np.linspace(-1, 1, height, dtype=np.float32)[:, None]
    return np.asarray(view) * (1 - np.float32(0.25) * (x**2 + y**2))


def two_strips(drawn: Picture, _: np.random.Generator) -> Light:
    """Another strip like it lies below."""
    return np.concatenate([drawn.light, drawn.light[::-1, ::-1]])


VIEWS: dict[str, Callable[[Picture, np.random.Generator], Light]] = {
    "face down": face_down,
    "mirrored": mirrored,
    "clipped black": clipped_black,
    "clipped white": clipped_white,
    "page of text": page_of_text,
    "photograph": photograph,
    "telephone": telephone,
    "two strips": two_strips,
}
WORDS = ("another tablet", "another resolution", "more steps", "fewer steps")
KINDS = (*VIEWS, *WORDS)


def write(seed: int, folder: Path) -> tuple[str, tuple[str, ...]]:
    """A spoilt scan of a seed -> what is wrong with it, and the words of the command."""
    kind = KINDS[seed % len(KINDS)]
    drawn_by = _plain(scenario(seed + 500_000))
    rng = np.random.default_rng([77, seed])
    drawn = picture(drawn_by, rng)
    if kind in VIEWS:
        light = np.ascontiguousarray(VIEWS[kind](drawn, rng), np.float32)
        drawn = replace(drawn, light=light, on_strip=np.zeros_like(light))
    path = folder / f"spoilt-{seed:05}.tif"
    save(pixels(drawn, drawn_by, rng), path, drawn_by.scanner)
    return kind, _words(kind, words_of(drawn_by, path))


def _plain(drawn_by: Scenario) -> Scenario:
    """A good scan but for what is spoilt: 300 ppi, 16 bits in grey, steps by centre and number."""
    scanner = replace(
        drawn_by.scanner, ppi=300, colour=False, file="tif16", encoding="srgb", writes_ppi=True, gain=0.95
    )
    return replace(drawn_by, scanner=scanner)


def _words(kind: str, words: tuple[str, ...]) -> tuple[str, ...]:
    """What was typed, wrong where the kind says so."""
    typed = list(words)
    if kind == "another tablet":
        where = typed.index("--tablet") + 1
        typed[where] = typed[where].rsplit(", ", 1)[0]
    elif kind == "another resolution":
        typed += ["--ppi", "600"]
    elif kind in ("more steps", "fewer steps"):
        more = 2 if kind == "more steps" else -2
        if "--steps" in typed:
            where = typed.index("--steps") + 1
            typed[where] = str(int(typed[where]) + more)
        else:
            where = typed.index("--doses") + 1
            doses = typed[where].split(", ")
            typed[where] = ", ".join([*doses, "500 s", "1000 s"] if more > 0 else doses[:-2])
    return tuple(typed)
