"""A canvas of a few primitives that writes the same drawing as SVG and as PNG."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape, quoteattr

INK = "#1a1a1a"
FAINT = "#8a8a8a"
WIRE = "#14507a"
ACCENT = "#a3231f"
PAPER = "#ffffff"

Point = tuple[float, float]


@dataclass(frozen=True)
class Stroke:
    """How a line or outline is drawn; widths in drawing units."""

    colour: str = INK
    width: float = 0.2
    fill: str = "none"
    dash: bool = False


@dataclass
class Canvas:
    """Drawing in units of its own, y downwards; `scale` pixels a unit.

    `data` of a primitive becomes data- attributes of the SVG element: what a reader of the file may rely on.
    """

    width: float
    height: float
    scale: float = 8.0
    title: str = ""
    _marks: list[dict[str, Any]] = field(default_factory=list)

    def line(self, points: list[Point], stroke: Stroke | None = None, kind: str = "", **data: str) -> None:
        """Draw a polyline; closed and filled if the stroke has a fill."""
        self._marks.append(
            {"shape": "line", "points": points, "stroke": stroke or Stroke(), "kind": kind, "data": data}
        )

    def rectangle(self, x: float, y: float, w: float, h: float, stroke: Stroke | None = None) -> None:
        """Draw a rectangle by its upper left corner."""
        self.line([(x, y), (x + w, y), (x + w, y + h), (x, y + h), (x, y)], stroke)

    def circle(
        self, x: float, y: float, r: float, stroke: Stroke | None = None, kind: str = "", **data: str
    ) -> None:
        """Draw a circle."""
        self._marks.append(
            {
                "shape": "circle",
                "at": (x, y),
                "r": r,
                "stroke": stroke or Stroke(),
                "kind": kind,
                "data": data,
            }
        )

    def text(
        self,
        x: float,
        y: float,
        words: str,
        size: float = 1.5,
        anchor: str = "start",
        colour: str = INK,
        kind: str = "",
        bold: bool = False,
        turned: bool = False,
        **data: str,
    ) -> None:
        """Write one line of text; y is its middle; `turned` reads upwards."""
        self._marks.append(
            {
                "shape": "text", "at": (x, y), "words": words, "size": size, "anchor": anchor,
                "colour": colour, "kind": kind, "bold": bold, "turned": turned, "data": data,
            }
        )  # fmt: skip

    def grid(self, x: float, y: float, columns: int, rows: int, step: float, colour: str) -> None:
        """Draw a field of small dots, the first at (x, y)."""
        self._marks.append(
            {
                "shape": "grid",
                "at": (x, y),
                "size": (columns, rows),
                "step": step,
                "colour": colour,
                "kind": "",
                "data": {},
            }
        )

    def save(self, stem: Path) -> None:
        """Write stem.svg and stem.png."""
        stem.with_suffix(".svg").write_text(self.svg(), encoding="utf-8")
        self.png(stem.with_suffix(".png"))

    # --- SVG ----------------------------------------------------------------------------------------------

    def svg(self) -> str:
        """Return the drawing as SVG text."""
        size = f'width="{_n(self.width * self.scale)}" height="{_n(self.height * self.scale)}"'
        view = f'viewBox="0 0 {_n(self.width)} {_n(self.height)}"'
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" {size} {view} '
            'font-family="DejaVu Sans, Verdana, sans-serif">\n'
            f"<title>{escape(self.title)}</title>\n"
            f'<rect width="100%" height="100%" fill="{PAPER}"/>\n'
        )
        return head + "\n".join(self._element(mark) for mark in self._marks) + "\n</svg>\n"

    def _element(self, mark: dict[str, Any]) -> str:
        extra = (f' class="{mark["kind"]}"' if mark["kind"] else "") + "".join(
            f" data-{key}={quoteattr(value)}" for key, value in mark["data"].items()
        )
        if mark["shape"] == "text":
            return _text_element(mark, extra)
        if mark["shape"] == "circle":
            x, y = mark["at"]
            place = f'cx="{_n(x)}" cy="{_n(y)}" r="{_n(mark["r"])}"'
            return f"<circle{extra} {place} {_stroke(mark['stroke'])}/>"
        if mark["shape"] == "grid":
            return _grid_element(mark)
        points = " ".join(f"{_n(x)},{_n(y)}" for x, y in mark["points"])
        return f'<polyline{extra} points="{points}" {_stroke(mark["stroke"])}/>'

    # --- PNG ----------------------------------------------------------------------------------------------

    def png(self, path: Path) -> None:
        """Write the drawing as PNG; needs pillow and matplotlib's font (the extra 'pictures')."""
        from PIL import Image, ImageDraw

        factor = self.scale * 2
        image = Image.new("RGB", (round(self.width * factor), round(self.height * factor)), PAPER)
        draw = ImageDraw.Draw(image)
        for mark in self._marks:
            if mark["shape"] == "text":
                _paint_text(image, draw, mark, factor)
            elif mark["shape"] == "grid":
                _paint_grid(draw, mark, factor)
            else:
                _paint_shape(draw, mark, factor)
        small = image.resize((image.width * 5 // 8, image.height * 5 // 8), Image.Resampling.LANCZOS)
        small.quantize(128, Image.Quantize.FASTOCTREE, dither=Image.Dither.NONE).save(path, optimize=True)


def _n(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _stroke(stroke: Stroke) -> str:
    dash = ' stroke-dasharray="0.8 0.6"' if stroke.dash else ""
    return f'fill="{stroke.fill}" stroke="{stroke.colour}" stroke-width="{_n(stroke.width)}"{dash}'


def _grid_element(mark: dict[str, Any]) -> str:
    """A pattern, so that thousands of dots take one line."""
    (x, y), (columns, rows), step = mark["at"], mark["size"], mark["step"]
    left, top, name = x - step / 2, y - step / 2, f"grid{_n(x)}-{_n(y)}".replace(".", "_")
    place = f'x="{_n(left)}" y="{_n(top)}"'
    return (
        f'<pattern id="{name}" {place} width="{_n(step)}" height="{_n(step)}" patternUnits="userSpaceOnUse">'
        f'<circle cx="{_n(step / 2)}" cy="{_n(step / 2)}" r="0.16" fill="{mark["colour"]}"/></pattern>'
        f'<rect {place} width="{_n(columns * step)}" height="{_n(rows * step)}" fill="url(#{name})"/>'
    )


def _text_element(mark: dict[str, Any], extra: str) -> str:
    x, y = mark["at"]
    turn = f' transform="rotate(-90 {_n(x)} {_n(y)})"' if mark["turned"] else ""
    weight = ' font-weight="bold"' if mark["bold"] else ""
    where = (
        f'x="{_n(x)}" y="{_n(y)}" dy="0.35em" font-size="{_n(mark["size"])}" text-anchor="{mark["anchor"]}"'
    )
    return f'<text{extra} {where} fill="{mark["colour"]}"{weight}{turn}>{escape(mark["words"])}</text>'


def _font(size_px: float, bold: bool) -> Any:
    from matplotlib import font_manager
    from PIL import ImageFont

    family = font_manager.FontProperties(family="DejaVu Sans", weight="bold" if bold else "normal")
    return ImageFont.truetype(font_manager.findfont(family), max(6, round(size_px)))


def _paint_text(image: Any, draw: Any, mark: dict[str, Any], factor: float) -> None:
    from PIL import Image, ImageDraw

    x, y = (value * factor for value in mark["at"])
    font = _font(mark["size"] * factor, mark["bold"])
    side = {"start": "l", "middle": "m", "end": "r"}[mark["anchor"]]
    if not mark["turned"]:
        draw.text((x, y), mark["words"], fill=mark["colour"], font=font, anchor=side + "m")
        return
    left, top, right, bottom = (round(v) for v in font.getbbox(mark["words"], anchor="lm"))
    strip = Image.new("RGBA", (right - left + 4, bottom - top + 4), (255, 255, 255, 0))
    ImageDraw.Draw(strip).text(
        (2 - left, 2 - top), mark["words"], fill=mark["colour"], font=font, anchor="lm"
    )
    strip = strip.rotate(90, expand=True)
    rise = {"start": strip.height, "middle": strip.height / 2, "end": 0}[mark["anchor"]]
    image.paste(strip, (round(x - strip.width / 2), round(y - rise)), strip)


def _paint_grid(draw: Any, mark: dict[str, Any], factor: float) -> None:
    (x0, y0), (columns, rows), r = mark["at"], mark["size"], 0.16 * factor
    for column in range(columns):
        for row in range(rows):
            x, y = (x0 + column * mark["step"]) * factor, (y0 + row * mark["step"]) * factor
            draw.ellipse([x - r, y - r, x + r, y + r], fill=mark["colour"])


def _paint_shape(draw: Any, mark: dict[str, Any], factor: float) -> None:
    stroke: Stroke = mark["stroke"]
    width = max(1, round(stroke.width * factor)) if stroke.width else 0
    fill = None if stroke.fill == "none" else stroke.fill
    if mark["shape"] == "circle":
        (x, y), r = mark["at"], mark["r"]
        box = [(x - r) * factor, (y - r) * factor, (x + r) * factor, (y + r) * factor]
        draw.ellipse(box, outline=stroke.colour if width else None, fill=fill, width=width)
        return
    points = [(x * factor, y * factor) for x, y in mark["points"]]
    if fill:
        draw.polygon(points, fill=fill)
    if width and stroke.dash:
        _paint_dashes(draw, points, stroke.colour, width, factor)
    elif width:
        draw.line(points, fill=stroke.colour, width=width, joint="curve")


def _paint_dashes(draw: Any, points: list[Point], colour: str, width: int, factor: float) -> None:
    for (x1, y1), (x2, y2) in zip(points, points[1:], strict=False):
        length = max(1e-9, ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5)
        count = max(1, int(length / (1.4 * factor)))
        for k in range(count):
            a, b = k / count, (k + 0.57) / count
            ends = [(x1 + (x2 - x1) * a, y1 + (y2 - y1) * a), (x1 + (x2 - x1) * b, y1 + (y2 - y1) * b)]
            draw.line(ends, fill=colour, width=width)
