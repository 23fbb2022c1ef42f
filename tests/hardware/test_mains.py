"""The mains picture cannot be misread: no two conductors meet without a hop or a dot."""

import re
import xml.etree.ElementTree as ET

import pytest
from hardware.drawing import mains


def lines(kind: str) -> list[tuple[str, list[tuple[float, float]]]]:
    """Of the finished SVG: each line of this kind with its conductor."""
    found = []
    for line in ET.fromstring(mains.mains().svg()).iter():
        if line.get("class") == kind:
            numbers = [float(v) for v in re.findall(r"-?[\d.]+", line.get("points") or "")]
            points = list(zip(numbers[::2], numbers[1::2], strict=True))
            found.append((line.get("data-conductor") or line.get("data-at") or "", points))
    return found


def test_every_crossing_of_the_drawing_hops() -> None:
    """Found anew from the SVG by geometry; the picture once let a switched wire run through the live rail."""
    hops = {tuple(float(v) for v in at.split(",")) for at, _ in lines("hop")}
    crossings = set()
    drawn = lines("mains")
    for _, up in drawn:
        for _, level in drawn:
            for (x1, y1), (x2, y2) in zip(up, up[1:], strict=False):
                for (x3, y3), (x4, y4) in zip(level, level[1:], strict=False):
                    meets = min(x3, x4) < x1 < max(x3, x4) and min(y1, y2) < y3 < max(y1, y2)
                    if x1 == x2 and y3 == y4 and meets:
                        crossings.add((x1, y3))
    assert crossings and crossings == hops


def test_each_lamp_has_line_neutral_and_earth() -> None:
    drawn = [name for name, _ in lines("mains")]
    assert drawn.count("PE") == drawn.count("N") == 3 and drawn.count("L") > 3


@pytest.mark.parametrize(
    "words", ["no relay and no shared fuse", "always works", "own fuse", "K1b", "RCD, 30 mA"]
)
def test_the_picture_says(words: str) -> None:
    assert words in mains.mains().svg()
