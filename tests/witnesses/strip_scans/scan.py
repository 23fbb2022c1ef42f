"""The scanner: flare, uneven light, drift, noise, gamma; the file, and what a user would type."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import tifffile
from PIL import Image
from scipy.ndimage import gaussian_filter
from tests.witnesses.strip_scans.beds import Scanner
from tests.witnesses.strip_scans.picture import Picture, picture
from tests.witnesses.strip_scans.scenario import Design, Scenario
from tests.witnesses.strip_scans.strip import Cell

CODES = 65_535


@dataclass(frozen=True)
class Truth:
    """What a reader should find. Places in mm from the left top of the file, as a viewer shows it."""

    family: str
    full_s: float
    clean_s: float
    full_stops: float
    clean_stops: float
    cells: tuple[Cell, ...]
    corners_mm: tuple[tuple[float, float], ...]
    patches_mm: tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Scan:
    """A written scan, the words of the command that reads it, and the truth."""

    path: Path
    words: tuple[str, ...]
    truth: Truth


def write(scenario: Scenario, folder: Path) -> Scan:
    """Draw a scenario and write its file."""
    rng = np.random.default_rng([41, scenario.seed])
    drawn = picture(scenario, rng)
    path = folder / f"strip-{scenario.seed:05}.{_suffix(scenario.scanner)}"
    save(pixels(drawn, scenario, rng), path, scenario.scanner)
    return Scan(path, words_of(scenario, path), _truth(scenario, drawn))


def pixels(drawn: Picture, scenario: Scenario, rng: np.random.Generator) -> np.ndarray:
    """What the file holds, turned as it lay."""
    seen = _seen(drawn.light, scenario.scanner, rng)
    codes = _encoded(seen, drawn.on_strip, scenario, rng)
    return np.ascontiguousarray(np.rot90(codes, scenario.bed.quarter_turns))


def _truth(scenario: Scenario, drawn: Picture) -> Truth:
    paper, centre = scenario.paper, scenario.design.centre_s
    down, across = (side * 25.4 / scenario.scanner.ppi for side in drawn.light.shape)
    places = np.concatenate([drawn.corners_mm, drawn.patches_mm])
    points = tuple(
        (float(x), float(y)) for x, y in _turned(places, (across, down), scenario.bed.quarter_turns)
    )
    return Truth(
        paper.family,
        centre * 2**paper.full_stops,
        centre * 2**paper.clean_stops,
        paper.full_stops,
        paper.clean_stops,
        drawn.cells,
        points[:4],
        points[4:],
    )


def _turned(points: np.ndarray, size: tuple[float, float], turns: int) -> np.ndarray:
    """Points after quarter turns against the clock, as numpy.rot90 turns a picture."""
    across, down = size
    for _ in range(turns):
        points = np.stack([points[:, 1], across - points[:, 0]], axis=1)
        across, down = down, across
    return points


def _seen(light: np.ndarray, scanner: Scanner, rng: np.random.Generator) -> np.ndarray:
    """Reflectance as the sensor has it: stray light added, then what multiplies it."""
    small = np.asarray(Image.fromarray(light).reduce(max(1, round(scanner.ppi / 25.4 * 1.5))))
    near = gaussian_filter(small, 6.0, mode="nearest")
    halo = scanner.flare * small.mean() + scanner.near_flare * near
    seen = light + _large(halo, light.shape)
    seen *= _large(_uneven(scanner.uneven, rng), light.shape)
    lines = 1 + _walk(light.shape[0], scanner.drift, rng)
    columns = 1 + rng.normal(0, scanner.streaks, light.shape[1])
    seen *= (scanner.gain * lines[:, None]).astype(np.float32)
    seen *= columns[None, :].astype(np.float32)
    return seen


def _large(plane: np.ndarray, shape: tuple[int, ...]) -> np.ndarray:
    image = Image.fromarray(plane.astype(np.float32))
    return np.asarray(image.resize((shape[1], shape[0]), Image.Resampling.BICUBIC))


def _uneven(share: float, rng: np.random.Generator) -> np.ndarray:
    """A smooth lamp: a slope and a bow each way, from peak to peak just the share; the mean is 1."""
    across, down = np.meshgrid(np.linspace(-1, 1, 48), np.linspace(-1, 1, 48))
    tilt_x, tilt_y, bow_x, bow_y = rng.normal(0, 1, 4)
    plane = tilt_x * across + tilt_y * down + bow_x * across**2 + bow_y * down**2
    return 1 + share * (plane - plane.mean()) / np.ptp(plane)


def _walk(count: int, share: float, rng: np.random.Generator) -> np.ndarray:
    """The lamp drifts while the carriage moves: a slow walk, from peak to peak just the share."""
    walk = np.interp(np.linspace(0, 19, count), np.arange(20), rng.normal(0, 1, 20).cumsum())
    return share * (walk - walk.mean()) / np.ptp(walk)


def _encoded(
    seen: np.ndarray, on_strip: np.ndarray, scenario: Scenario, rng: np.random.Generator
) -> np.ndarray:
    scanner, paper = scenario.scanner, scenario.paper
    table = _table(scanner)
    if not scanner.colour:
        return table[_noisy(seen, on_strip, scenario, rng)]
    planes = [
        table[_noisy(seen * (1 + np.float32(10**-tint - 1) * on_strip), on_strip, scenario, rng)]
        for tint in paper.tint_d
    ]
    return np.stack(planes, axis=-1)


def _noisy(
    seen: np.ndarray, on_strip: np.ndarray, scenario: Scenario, rng: np.random.Generator
) -> np.ndarray:
    """Noise of the sensor (even, and of its charge) and the grain of the paper; then codes of 16 bits."""
    noise = rng.standard_normal(seen.shape, dtype=np.float32)
    if scenario.scanner.ppi > 500:
        noise[:, 1:] += np.float32(0.6) * noise[:, :-1]
        noise *= np.float32(1 / np.hypot(1, 0.6))
    read = np.float32((scenario.scanner.noise * 0.4) ** 2)
    charge = np.float32(scenario.scanner.noise**2)
    grain = np.float32(scenario.paper.grain**2)
    noise *= np.sqrt(read + charge * seen + grain * on_strip * seen * seen)
    noise += seen
    np.clip(noise, 0, 1, out=noise)
    return (noise * CODES + np.float32(0.5)).astype(np.uint16)


def _table(scanner: Scanner) -> np.ndarray:
    """Codes of the file for each of 65 536 levels of light."""
    light = np.arange(CODES + 1) / CODES
    if scanner.encoding == "srgb":
        value = np.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055)
    elif scanner.encoding == "lightness":
        value = np.where(light <= 216 / 24389, light * 24389 / 2700, 1.16 * np.cbrt(light) - 0.16)
    elif scanner.encoding == "linear":
        value = light
    else:
        value = light ** (1 / float(scanner.encoding))
    if _suffix(scanner) == "jpg" or scanner.file.endswith("8"):
        return np.round(255 * value).astype(np.uint8)
    return np.round(CODES * value).astype(np.uint16)


def _suffix(scanner: Scanner) -> str:
    """PNG of 16 bits in colour is not written here: such a scan is a TIFF."""
    if scanner.file == "png16" and scanner.colour:
        return "tif"
    return scanner.file.rstrip("0123456789")


def save(codes: np.ndarray, path: Path, scanner: Scanner) -> None:
    """Write the file, with its resolution where the scanner does that."""
    dpi = (scanner.ppi, scanner.ppi)
    words: dict[str, Any] = {}
    if path.suffix == ".tif":
        if scanner.writes_ppi:
            words = {"resolution": dpi, "resolutionunit": "INCH"}
        kind = "rgb" if codes.ndim == 3 else "minisblack"
        tifffile.imwrite(path, codes, photometric=kind, metadata=None, **words)
        return
    if scanner.writes_ppi:
        words = {"dpi": dpi}
    words |= {"quality": scanner.quality} if path.suffix == ".jpg" else {"compress_level": 1}
    Image.fromarray(codes).save(path, **words)


def words_of(scenario: Scenario, path: Path) -> tuple[str, ...]:
    """The command as a user types it, after `footlight`."""
    words = ["read", "strip", str(path), "--present", f"{scenario.design.present_s:g} s"]
    words += _design_words(scenario.design)
    words += ["--tablet", ", ".join(f"{density:.2f}" for density in scenario.tablet.typed_d)]
    if scenario.sheet.bands != ("black", "grey", "white", "white2"):
        words += ["--bands", ", ".join(scenario.sheet.bands)]
    if scenario.scanner.encoding == "linear":
        words.append("--linear")
    if not scenario.scanner.writes_ppi:
        words += ["--ppi", str(scenario.scanner.ppi)]
    return tuple(words)


def _design_words(design: Design) -> list[str]:
    if design.kind == "unequal":
        return ["--doses", "0, " + ", ".join(f"{dose:.4g} s" for dose in design.doses_s[1:])]
    step = "1 stop" if design.kind == "whole stops" else "1/2 stop"
    return ["--centre", f"{design.centre_s:g} s", "--step", step, "--steps", str(len(design.steps_stops))]
