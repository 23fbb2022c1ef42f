"""What is entered about the stock: a form for each act, which asks what its command asks."""

from collections.abc import Callable
from dataclasses import dataclass

from starlette.datastructures import FormData
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from footlight import quantities as q
from footlight.actions.add_lens import add_lens, measured
from footlight.actions.add_paper import add_paper
from footlight.actions.list_acts import list_acts
from footlight.actions.mix_baths import Mixture, mix_baths
from footlight.actions.move_baths import move_baths
from footlight.actions.note_bath import note_bath
from footlight.actions.note_paper import count_off_paper, note_paper, use_paper
from footlight.desk import pages
from footlight.desk.desk import Desk
from footlight.desk.pages import Field, Form
from footlight.errors import FootlightError, InputError, field
from footlight.kinds import BATH_KINDS
from footlight.notebook.stock.papers import Finding
from footlight.quantities.moment import parse_moment
from footlight.quantities.table import choice
from footlight.written.camera import index
from footlight.written.mixes import formula as read_formula

AT = Field("at", "When", "without it now; '18:30', 'yesterday 18:30'")
MOVES = ("emptied", "bottled", "poured")


@dataclass(frozen=True)
class Entry:
    """One kind of entry. name: in its address. command: the one that does the same."""

    name: str
    title: str
    command: str
    fields: tuple[Field, ...]
    enter: Callable[[Desk, Form], object]


def _words(form: Form, name: str) -> tuple[str, ...]:
    return tuple(word.strip() for word in form.value(name).split(",") if word.strip())


def _at_s(desk: Desk, form: Form) -> int:
    return parse_moment(form.value("at") or "now", field("at"), desk.now_s())


def _needed(form: Form, name: str, example: str) -> str:
    if not form.value(name):
        raise InputError(f"{field(name)}: nothing is written; write for example '{example}'")
    return form.value(name)


def _mixed(desk: Desk, form: Form) -> object:
    volume, kind = form.value("volume"), form.value("kind")
    mixture = Mixture(
        q.parse_volume_ml(volume, field("volume")) if volume else None,
        read_formula(form.value("formula").removesuffix(".toml")) if form.value("formula") else None,
        choice(kind, BATH_KINDS, field("kind")) if kind else None,  # pyright: ignore[reportArgumentType]
        form.value("made_from"),
    )
    _needed(form, "names", "developer")
    return mix_baths(desk.book, _words(form, "names"), mixture, _at_s(desk, form), desk.now_s())


def _found(desk: Desk, form: Form) -> object:
    readers: dict[str, Callable[[str, str], float]] = {
        "clearing": lambda text, what: q.parse_seconds(text, what, least_s=1, most_s=3600),
        "temperature": q.parse_temperature_c,
        "topped": q.parse_volume_ml,
        "sheets": lambda text, what: q.parse_number(text, what, least=0.1, most=1000),
        "hours": lambda text, what: q.parse_number(text, what, least=0.1, most=1000),
    }
    said = {kind: read(form.value(kind), field(kind)) for kind, read in readers.items() if form.value(kind)}
    name = _needed(form, "name", "bleach")
    return note_bath(desk.book, name, said, form.value("note"), _at_s(desk, form), desk.now_s())


def _moved(desk: Desk, form: Form) -> object:
    move = choice(form.value("move") or "emptied", MOVES, field("move"))
    names = _words(form, "names")
    return move_baths(desk.book, move, names, not names, _at_s(desk, form), desk.now_s())  # pyright: ignore[reportArgumentType]


def _paper_added(desk: Desk, form: Form) -> object:
    speed = form.value("index")
    return add_paper(
        desk.book,
        _needed(form, "name", "A"),
        form.value("paper"),
        _needed(form, "size", "8x10"),
        pages.whole_number(form.value("sheets"), "sheets", most=100_000),
        index(speed, field("index")) if speed else None,
        desk.now_s(),
    )


def _paper_found(desk: Desk, form: Form) -> object:
    speed, setup = form.value("index"), form.value("setup")
    stops = {
        kind: q.parse_stops(form.value(name), field(name)) if form.value(name) else None
        for kind, name in (("pre-flash", "pre_flash"), ("second", "second"))
    }
    said = [
        Finding("speed", index(speed, field("index")) if speed else None),
        *(Finding(kind, value, setup) for kind, value in stops.items()),
        Finding("note", text=form.value("note")),
    ]
    findings = [finding for finding in said if finding.value is not None or finding.text]
    return note_paper(desk.book, _needed(form, "name", "A"), findings, desk.now_s())


def _paper_used(desk: Desk, form: Form) -> object:
    return use_paper(desk.book, _needed(form, "name", "A"), desk.now_s())


def _paper_spoiled(desk: Desk, form: Form) -> object:
    count = pages.whole_number(form.value("count"), "count", most=10_000)
    return count_off_paper(desk.book, _needed(form, "name", "A"), count, form.value("why"), desk.now_s())


def _lens_added(desk: Desk, form: Form) -> object:
    widest = form.value("widest")
    lens = measured(
        _needed(form, "name", "portrait lens"),
        q.parse_length_mm(form.value("focal"), field("focal")),
        q.parse_stop(widest, field("widest")) if widest else None,
        tuple(line.strip() for line in form.value("true").splitlines() if line.strip()),
        tuple(_opening(line) for line in form.value("openings").splitlines() if line.strip()),
        form.value("note"),
    )
    return add_lens(desk.book, lens, desk.now_s())


def _opening(line: str) -> tuple[str, float]:
    mark, _, diameter = line.partition("=")
    return mark.strip(), q.parse_length_mm(diameter.strip(), field("openings"))


def _choice(name: str, label: str, values: tuple[str, ...], hint: str = "") -> Field:
    return Field(name, label, hint, "choice", tuple((value, value) for value in values))


_NAMES = Field("names", "Trays", "as the sequence calls them; commas between", example="developer, fixer")
ENTRIES = {
    entry.name: entry
    for entry in (
        Entry(
            "bath-mixed",
            "Baths were mixed",
            "bath mixed",
            (
                _NAMES,
                Field("volume", "Volume", "without it as the last time", example="1 L"),
                Field("formula", "Formula", "one that comes along, such as 'peroxide-bleach'"),
                _choice("kind", "Kind", BATH_KINDS, "where neither name nor formula tells"),
                Field("made_from", "Mixed from", "in your words"),
                AT,
            ),
            _mixed,
        ),
        Entry(
            "bath-found",
            "Something was found of a bath",
            "bath found",
            (
                Field("name", "Tray", example="bleach"),
                Field("clearing", "Clearing or bleaching took", "'95 s'"),
                Field("temperature", "Temperature", "'20 °C'"),
                Field("topped", "Topped up with", "'100 mL'"),
                Field("sheets", "Your own capacity", "sheets of 8x10"),
                Field("hours", "Your own hours in the tray"),
                Field("note", "Note", kind="area"),
                AT,
            ),
            _found,
        ),
        Entry(
            "bath-moved",
            "Baths were emptied, bottled, poured back",
            "bath emptied, bottled, poured",
            (
                _choice("move", "What was done", MOVES),
                Field("names", "Trays", "commas between; without any, all it can be done with"),
                AT,
            ),
            _moved,
        ),
        Entry(
            "paper-added",
            "A box of paper was bought",
            "paper add",
            (
                Field("name", "Name", "short, your own", example="A"),
                Field("paper", "What it is", example="resin coated, pearl"),
                Field("size", "Size", example="8x10"),
                Field("sheets", "Sheets", example="100"),
                Field("index", "Exposure index", "if it is known"),
            ),
            _paper_added,
        ),
        Entry(
            "paper-found",
            "Something was found of a paper",
            "paper found",
            (
                Field("name", "Name", example="A"),
                Field("index", "Exposure index", "'4'"),
                Field("pre_flash", "Pre-flash threshold", "against the reference: '-1/3 stop'"),
                Field("second", "Second exposure", "against the reference: '+1/4 stop'"),
                Field("setup", "Light setup that these stops are for"),
                Field("note", "Note", kind="area"),
            ),
            _paper_found,
        ),
        Entry(
            "paper-used",
            "Another box is in use from now on",
            "paper use",
            (Field("name", "Name"),),
            _paper_used,
        ),
        Entry(
            "paper-spoiled",
            "Sheets went without a number",
            "paper spoiled",
            (Field("name", "Name"), Field("count", "Sheets", example="2"), Field("why", "Why")),
            _paper_spoiled,
        ),
        Entry(
            "lens-added",
            "A lens",
            "lens add",
            (
                Field("name", "Name", example="portrait lens"),
                Field("focal", "Focal length", example="210 mm"),
                Field("widest", "Widest stop", "'f/4.5'"),
                Field("true", "Stops as measured", "one a line: 'f/32 = 29.4'", kind="area"),
                Field("openings", "Or by their diameter", "one a line: 'f/8 = 25.9 mm'", kind="area"),
                Field("note", "Note"),
            ),
            _lens_added,
        ),
    )
}


def show(desk: Desk, request: Request, sent: FormData) -> Response:
    """What is asked."""
    entry = _entry(request)
    query = request.query_params
    return _page(request, entry, Form(entry.fields, {name: query.getlist(name) for name in query}))


def _entry(request: Request) -> Entry:
    entry = ENTRIES.get(request.path_params["name"])
    if entry is None:
        raise HTTPException(404)
    return entry


def _page(request: Request, entry: Entry, form: Form) -> Response:
    status = 400 if form.error else 200
    return pages.page(request, "enter.html", status=status, title=entry.title, entry=entry, form=form)


def enter(desk: Desk, request: Request, sent: FormData) -> Response:
    """It is entered, as one act that the history can take back."""
    entry = _entry(request)
    form = pages.sent_form(entry.fields, sent)
    try:
        entry.enter(desk, form)
    except FootlightError as error:
        return _page(request, entry, form.with_error(error))
    return pages.see(f"/stock?act={list_acts(desk.book, 1)[0].id}")
