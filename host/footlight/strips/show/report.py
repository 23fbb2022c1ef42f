"""The report of a strip: one page, as PNG and as HTML that needs no other file."""

import base64
import html
import io
from collections.abc import Callable
from pathlib import Path

from footlight.strips.reading import Read
from footlight.strips.result import Reading
from footlight.strips.show import picture

_PAGE = """<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>{title}</title>
<style>
body {{ font: 15px/1.45 Georgia, serif; max-width: 52em; margin: 2em auto; padding: 0 1em; }}
img {{ width: 100%; }} table {{ border-collapse: collapse; font-size: 13px; }}
td, th {{ border-bottom: 1px solid #bbb; padding: 2px 8px; text-align: right; }}
td:first-child, th:first-child {{ text-align: left; }} td {{ font-variant-numeric: tabular-nums; }}
.dose {{ font-size: 20px; }} .note {{ color: #444; }}
@media print {{ body {{ margin: 0; font-size: 11px; }} img {{ max-height: 15cm; width: auto; }} }}
</style></head><body>
<h1>{title}</h1>
<p class="dose">{headline}</p>
{advice}
<img alt="the strip with its marks, black and white against the dose" src="data:image/png;base64,{image}">
{table}
<p class="note">{how}</p>
</body></html>
"""


def png(read: Read, path: Path, dpi: int = 150) -> None:
    """Write the page as PNG."""
    path.write_bytes(_image(read, dpi))


def headline(reading: Reading) -> str:
    """The advice in a few words."""
    return picture.headline(reading)


def small_png(read: Read, most_bytes: int) -> bytes:
    """The same page as PNG, small enough to keep."""
    return small(lambda dpi: _image(read, dpi), most_bytes)


def small(drawn: Callable[[int], bytes], most_bytes: int) -> bytes:
    """A page drawn at so many dots per inch, with greys and a few colours, as fine as fits."""
    from PIL import Image

    made = b""
    for dpi in (110, 90, 70, 50):
        buffer = io.BytesIO()
        with Image.open(io.BytesIO(drawn(dpi))) as page:
            page.convert("RGB").quantize(64).save(buffer, "PNG", optimize=True)
        made = buffer.getvalue()
        if len(made) <= most_bytes:
            break
    return made


def html_page(read: Read, path: Path) -> None:
    """Write the page as one HTML file."""
    reading = read.reading
    text = _PAGE.format(
        title=html.escape(f"Strip {reading.scan}"),
        headline=html.escape(picture.headline(reading).capitalize()),
        advice=_paragraphs(reading),
        image=base64.b64encode(_image(read, 130, bare=True)).decode("ascii"),
        table=_table(reading),
        how=html.escape(f"{reading.ppi:g} ppi, {reading.bits} bits; densities {reading.calibration}"),
    )
    path.write_text(text, encoding="utf-8")


def _image(read: Read, dpi: int, bare: bool = False) -> bytes:
    buffer = io.BytesIO()
    picture.figure(read, bare).savefig(buffer, dpi=dpi, format="png")
    return buffer.getvalue()


def _paragraphs(reading: Reading) -> str:
    rows = list(reading.advice.words) + [f"Cause: {text}." for text in reading.advice.causes]
    rows += [f"! {text}" for text in reading.notes]
    if reading.taken:
        rows += [*reading.taken.said, *reading.taken.run_words]
    return "\n".join(f"<p>{html.escape(text)}</p>" for text in rows)


def _table(reading: Reading) -> str:
    head = ("band", "step", "dose", "density D", "± D", "graininess D", "mottle D", "beyond zero D", "tiles")
    rows = [
        (
            step.band, f"{step.step}", "zero" if not step.dose_s else f"{step.dose_s:.3g} s",
            f"{step.density_d:.3f}", f"{step.uncertainty_d:.3f}",
            f"{step.graininess_d:.4f}", f"{step.mottle_d:.4f}",
            f"{step.excess_mottle_d:.4f}", f"{step.tiles}",
        )
        for step in reading.steps
    ]  # fmt: skip
    body = "\n".join(
        "<tr>" + "".join(f"<td>{html.escape(text)}</td>" for text in row) + "</tr>" for row in rows
    )
    return "<table><tr>" + "".join(f"<th>{text}</th>" for text in head) + f"</tr>\n{body}</table>"
