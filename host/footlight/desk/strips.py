"""A strip's scan: dropped, read, what was found drawn on it and put right by hand, its advice accepted."""

import secrets
import shutil
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response

from footlight import quantities as q
from footlight.actions.accept_dose import accept_dose, plan_acceptance
from footlight.actions.find_readings import find_readings
from footlight.actions.keep_reading import Keeping
from footlight.actions.look_at_scan import look_at_scan
from footlight.actions.open_scan import ScanFile
from footlight.actions.read_strip import StripLayout, StripRead, StripRules, read_strip
from footlight.actions.take_strip_doses import StripDoses, StripOfSheet, TypedDoses, take
from footlight.actions.write_report import Report
from footlight.desk import pages
from footlight.desk.desk import Desk
from footlight.desk.pages import Field, Form
from footlight.errors import FootlightError, InputError, field
from footlight.views import strip_readings
from footlight.views.strip_drawing import drawing_of
from footlight.written import scans
from footlight.written.strip_doses import numbers, strip_totals_s

SETUPS_FILE = "light-setups.toml"
_MOST_KEPT = 8
SCAN = Field(
    "scan",
    "Scan of the dry strip",
    "TIFF, PNG or JPEG; 600 ppi, 16 bits, no automatic corrections",
    kind="file",
)
DOSES = (
    Field("sheet", "Sheet", "its doses are then taken from the notebook, as they were given"),
    Field("present", "Dose given now", "without a sheet", example="8 s"),
    Field("centre", "Middle step", "without a sheet", example="8 s"),
    Field("step", "How far apart", "without it 1 stop"),
    Field("count", "How many steps", "without those at the ends; without it 7"),
    Field("doses", "Or every dose", "'0, 1 s, 2 s, 4 s, 8 s, 80 s'"),
)
READING = (
    Field(
        "tablet", "Densities of the grey tablet beside it", example="0.06, 0.2, 0.35, 0.5, 0.7, 0.9, 1.1, 1.3"
    ),
    Field(
        "bands", "Bands in order", "'black' alone for a plain strip; without it black, grey, white, white2"
    ),
    Field("edges", "Edges of the steps by hand", "mm from the zero end; drag them on the picture"),
    Field(
        "corners", "Corners of the strip by hand", "'x, y; x, y; x, y; x, y' in mm; drag them on the picture"
    ),
    Field("mottle", "Mottle that is too much", "without it 0.010 D"),
    Field("paper", "Density of the bare base", "one, or 'red, green, blue'"),
    Field("ppi", "Pixels an inch", "where the file has none or a wrong one"),
    Field("short", "the steps run along the short side", kind="tick"),
    Field("linear", "the scan is proportional to light, not sRGB", kind="tick"),
)
FIELDS = DOSES + READING
ACCEPTING = (
    Field(
        "setup",
        "Into these light setups",
        "one a line; without any that of the strip and its twins",
        kind="area",
    ),
    Field("dose", "Another dose than the advice", "'7 s'"),
    Field("at", "Where the strip stood", "if not known: '620 mm f/11'"),
)


def show_begin(desk: Desk, request: Request, sent: FormData) -> Response:
    """Where a scan is dropped, and what was read of late."""
    return _begin_page(desk, request, Form((SCAN, *FIELDS)))


def _begin_page(desk: Desk, request: Request, form: Form) -> Response:
    kept = find_readings(desk.book) if desk.book.is_file() else []
    return pages.page(
        request,
        "strip-begin.html",
        status=400 if form.error else 200,
        title="Strip",
        form=form,
        readings=strip_readings.list_grid(kept),
        links=[f"/strip/accept/{reading.id}" if reading.dose_s is not None else "" for reading in kept],
    )


def drop(desk: Desk, request: Request, sent: FormData) -> Response:
    """A scan is taken in; it is looked at, at an address of its own, for as long as the desk is open."""
    form = pages.sent_form((SCAN, *FIELDS), sent)
    try:
        with pages.uploaded(sent, "scan") as path:
            look = look_at_scan(ScanFile(path, _ppi(form)))
            place = _new_place(desk)
            (place / "look.png").write_bytes(look.png)
            (place / "size").write_text(f"{look.width_mm} {look.height_mm}", encoding="ascii")
            shutil.move(path, place / "scans" / path.name)
    except FootlightError as error:
        return _begin_page(desk, request, form.with_error(error))
    typed = {
        name: values[0] for name, values in form.typed.items() if values and values[0] and name != "scan"
    }
    return pages.see(f"/strip/scan/{place.name}?{urlencode(typed)}")


def _new_place(desk: Desk) -> Path:
    older = sorted(desk.scans.iterdir(), key=lambda path: path.stat().st_mtime)
    for path in older[: -_MOST_KEPT + 1]:
        shutil.rmtree(path, ignore_errors=True)
    place = desk.scans / secrets.token_hex(8)
    (place / "scans").mkdir(parents=True)
    return place


def _place(desk: Desk, request: Request) -> Path:
    place = desk.scans / request.path_params["id"]
    if place.parent != desk.scans or not (place / "look.png").is_file():
        raise InputError("this scan is no longer here: drop it again")
    return place


def show_scan(desk: Desk, request: Request, sent: FormData) -> Response:
    """A scan, read; where that does not go, why, and the scan as it is."""
    query = request.query_params
    return _scan_page(desk, request, Form(FIELDS, {name: query.getlist(name) for name in query}))


def _scan_page(desk: Desk, request: Request, form: Form, kept: int | None = None) -> Response:
    place, read = _place(desk, request), None
    try:
        read = _read(desk, place, form)
    except FootlightError as error:
        form = form.with_error(error)
    size_mm = [float(part) for part in (place / "size").read_text(encoding="ascii").split()]
    told: dict[str, Any] = {}
    if read is not None:
        told = {
            "words": strip_readings.advice_words(read.reading),
            "table": strip_readings.strip_grid(read.reading),
            "taken": strip_readings.taken_lines(read.doses.taken),
            "notes": read.reading.notes,
            "drawing": drawing_of(read.reading.found),
        }
    return pages.page(
        request,
        "strip.html",
        title=f"Strip {next((place / 'scans').iterdir()).name}",
        id=place.name,
        form=form,
        read=read,
        told=told,
        size_mm=size_mm,
        corners=_corners(form, read, size_mm),
        kept=kept,
        query=urlencode([(name, text) for name, texts in form.typed.items() for text in texts if text]),
    )


def _corners(form: Form, read: StripRead | None, size_mm: list[float]) -> tuple[tuple[float, float], ...]:
    """Where the handles stand: as typed, as found, or within the scan, to be dragged to the strip."""
    with suppress(InputError):
        if typed := scans.corners_mm(form.value("corners")):
            return typed
    if read is not None:
        return read.reading.found.corners_mm
    (width, height), rim = size_mm, 0.1
    left, top, right, bottom = rim * width, rim * height, (1 - rim) * width, (1 - rim) * height
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def keep(desk: Desk, request: Request, sent: FormData) -> Response:
    """The reading is kept in the notebook, with its picture."""
    form = pages.sent_form(FIELDS, sent)
    sheet = form.value("sheet")
    keeping = Keeping(desk.book, pages.whole_number(sheet, "sheet") if sheet else None)
    try:
        read = _read(desk, _place(desk, request), form, keeping)
    except FootlightError as error:
        return _scan_page(desk, request, form.with_error(error))
    return pages.see(f"/strip/accept/{read.kept}")


def picture(desk: Desk, request: Request, sent: FormData) -> Response:
    """The scan as it is, small; or the page of its reading."""
    names = {"scan": "look.png", "report": "report.png"}
    path = _place(desk, request) / names.get(request.path_params["what"], "look.png")
    if not path.is_file():
        raise InputError("this scan was not read yet")
    return Response(path.read_bytes(), media_type="image/png")


def _read(desk: Desk, place: Path, form: Form, keeping: Keeping | None = None) -> StripRead:
    scan = ScanFile(
        next((place / "scans").iterdir()),
        _ppi(form),
        numbers(form.value("tablet"), field("tablet"), 0, 4),
        linear=bool(form.value("linear")),
    )
    bands = form.value("bands")
    layout = StripLayout(
        scans.bands(bands, field("bands")) if bands else scans.BANDS,
        scans.edges_mm(form.value("edges")),
        bool(form.value("short")),
        scans.corners_mm(form.value("corners")),
    )
    rules = StripRules(
        q.parse_number(form.value("mottle") or "0.010", field("mottle"), least=0.002, most=0.2),
        base_d=scans.base_d(form.value("paper"), field("paper")),
    )
    report = Report(place / "report.png", replacing=True)
    return read_strip(scan, _doses(desk, form), layout, rules, report=report, keeping=keeping)


def _ppi(form: Form) -> float | None:
    text = form.value("ppi")
    return q.parse_number(text, field("ppi"), least=50, most=6400) if text else None


def _doses(desk: Desk, form: Form) -> StripDoses:
    typed = {name: form.value(name) or None for name in ("present", "centre", "doses", "sheet")}
    present_s = (
        q.parse_seconds(typed["present"], field("present"), least_s=0.01) if typed["present"] else None
    )
    count = pages.whole_number(form.value("count") or "7", "count", least=3, most=40)
    totals_s = _totals_s(typed, form.value("step") or "1 stop", count)
    sheet = None
    if typed["sheet"]:
        number = pages.whole_number(typed["sheet"], "sheet")
        sheet = StripOfSheet(number, present_s=present_s, setups=desk.folder / SETUPS_FILE)
    return take(desk.book, sheet, TypedDoses(totals_s, present_s) if totals_s else None)


def _totals_s(typed: Mapping[str, str | None], step: str, count: int) -> tuple[float, ...]:
    if typed["doses"] is None and typed["centre"] is None:
        if typed["sheet"] is not None:
            return ()
        raise InputError(
            f"what light the strip got is not known: give {field('sheet')}, or {field('present')} with"
            f" {field('centre')}"
        )
    return strip_totals_s(typed["doses"], typed["centre"], step, count)


def show_acceptance(desk: Desk, request: Request, sent: FormData) -> Response:
    """What accepting a reading would change: before and after."""
    query = request.query_params
    return _acceptance_page(desk, request, Form(ACCEPTING, {name: query.getlist(name) for name in query}))


def _plan(desk: Desk, request: Request, form: Form):
    dose = form.value("dose")
    return plan_acceptance(
        desk.book,
        desk.folder / SETUPS_FILE,
        reading_id=request.path_params["number"],
        setups=tuple(line.strip() for line in form.value("setup").splitlines() if line.strip()),
        dose_s=q.parse_seconds(dose, field("dose"), least_s=0.01) if dose else None,
        place=form.value("at") or None,
    )


def _acceptance_page(
    desk: Desk, request: Request, form: Form, error: FootlightError | None = None
) -> Response:
    planned, number = None, request.path_params["number"]
    try:
        planned = _plan(desk, request, form)
    except FootlightError as wrong:
        form = form.with_error(wrong)
    kept = find_readings(desk.book, number)[0]
    return pages.page(
        request,
        "accept.html",
        status=409 if error else 200,
        title=f"Reading {number}",
        number=number,
        form=form,
        error=error,
        lines=[line for line in strip_readings.advice_lines(kept) if line],
        planned=planned,
        made_from=pages.fingerprint([vars(change) for change in planned.changes]) if planned else "",
    )


def accept(desk: Desk, request: Request, sent: FormData) -> Response:
    """The references are written, if the file still says what the page showed."""
    form = pages.sent_form(ACCEPTING, sent)
    try:
        planned = _plan(desk, request, form)
        if sent.get("made_from") != pages.fingerprint([vars(change) for change in planned.changes]):
            raise InputError("the light setups were changed since this page was made; look at it again")
        accept_dose(desk.book, planned, desk.now_s())
    except FootlightError as error:
        return _acceptance_page(desk, request, form, error)
    return pages.see("/history")
