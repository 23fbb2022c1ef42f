"""The prints: the list, one with its whole life, two beside each other, what is written of them."""

import tempfile
from collections.abc import Callable
from pathlib import Path
from urllib.parse import urlencode

from starlette.datastructures import FormData, QueryParams
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response

from footlight.actions.attach_pictures import picture_data
from footlight.actions.list_acts import list_acts
from footlight.actions.list_sheets import Filters, SheetList, list_sheets
from footlight.actions.recall_print import recall_prints
from footlight.actions.report_print import report_print
from footlight.actions.search_notebook import search_notebook
from footlight.actions.show_sheet import ShownSheet, show_sheet
from footlight.actions.write_sheet import small_picture, write_sheet
from footlight.desk import pages
from footlight.desk.desk import Desk
from footlight.desk.guard import PRINTED_POLICY
from footlight.desk.pages import Field, Form
from footlight.errors import FootlightError, InputError, field
from footlight.notebook.sheets.entries import SheetEntry
from footlight.notebook.sheets.remarks import DEFECTS, VERDICTS
from footlight.quantities.moment import parse_moment
from footlight.views import comparison, life, print_report, run_table, sheet, sheets
from footlight.views import search as search_view

_PAGE = 50
_HITS = 50
_SHEET = (
    Field("verdict", "Verdict", kind="choice", choices=tuple((word, word) for word in VERDICTS)),
    Field("defects", "Defects", kind="many", choices=tuple((word, word) for word in DEFECTS)),
    Field("note", "Note", kind="area"),
    Field("paper", "Paper", "the name of its batch"),
    Field("picture", "Picture", "PNG, JPEG or TIFF; it is kept small", kind="file"),
)


def show_list(desk: Desk, request: Request, sent: FormData) -> Response:
    """The sheets, the newest first; of several filters, those that fit all."""
    query = request.query_params
    form = _filter_form(query)
    listed, most = SheetList(()), _PAGE
    try:
        most = pages.whole_number(form.value("last") or f"{_PAGE}", "last")
        listed = list_sheets(desk.book, most, _filters(desk, form))
    except FootlightError as error:
        form = form.with_error(error)
    more = listed.more or listed.older
    kept = {name: text for name, text in query.items() if text and name != "last"}
    return pages.page(
        request,
        "prints.html",
        status=400 if form.error else 200,
        title="Prints",
        form=form,
        table=sheets.grid(listed.sheets),
        controllers=[one.controller for one in listed.sheets],
        more=f"/prints?{urlencode(kept | {'last': most + 4 * _PAGE})}" if more else "",
        older=listed.older,
    )


def _filter_form(query: QueryParams) -> Form:
    fields = (
        Field("paper", "Paper", "the name of its batch"),
        Field("verdict", "Verdict", kind="choice", choices=tuple((word, word) for word in VERDICTS)),
        Field("defect", "Defect", kind="choice", choices=tuple((word, word) for word in DEFECTS)),
        Field("session", "Evening", "its name"),
        Field("since", "Since", example="2026-03-01"),
        Field("last", "How many", example=f"{_PAGE}"),
    )
    return Form(fields, {name: query.getlist(name) for name in query})


def _filters(desk: Desk, form: Form) -> Filters:
    since = form.value("since")
    return Filters(
        paper=form.value("paper") or None,
        session=form.value("session") or None,
        defect=form.value("defect") or None,
        verdict=form.value("verdict") or None,
        since_unix_s=parse_moment(since, field("since"), desk.now_s()) if since else None,
    )


def search(desk: Desk, request: Request, sent: FormData) -> Response:
    """What was written, found by its words."""
    form = Form(
        (Field("words", "Words", "or beginnings of words"),),
        {"words": [request.query_params.get("words", "")]},
    )
    hits = []
    try:
        hits = search_notebook(desk.book, form.value("words"), _HITS)
    except FootlightError as error:
        form = form.with_error(error)
    return pages.page(
        request,
        "search.html",
        title="Search",
        form=form,
        table=search_view.grid(hits),
        links=[f"/prints/{hit.sheet}" if hit.sheet else "" for hit in hits],
        is_cut=len(hits) == _HITS,
    )


def show_print(desk: Desk, request: Request, sent: FormData) -> Response:
    """One print: its whole life, planned against given."""
    shown = show_sheet(desk.book, _number(request), _controller(request))
    return _print_page(desk, request, shown, Form(_SHEET))


def _print_page(desk: Desk, request: Request, shown: ShownSheet, form: Form, stale: bool = False) -> Response:
    standing = {
        kind: [text.text for text in shown.life.written if text.kind == kind]
        for kind in ("verdict", "defect")
    }
    return pages.page(
        request,
        "print.html",
        status=409 if stale else 400 if form.error else 200,
        title=f"Print {shown.story.number}",
        shown=shown,
        head=sheet.head(shown.story),
        before=list(life.before(shown.life)),
        after=list(life.after(shown.life)),
        runs=[
            {
                "title": run_table.run_title(part),
                "table": run_table.run_grid(part),
                "notes": run_table.run_notes(part),
                "baths": list(life.baths_of(shown.life, part.run)),
                "arithmetic": part.arithmetic.splitlines(),
                "as_sent": sheet.files_of(part),
            }
            for part in shown.story.runs
        ],
        form=form,
        made_from=_made_from(shown),
        stale=stale,
        standing=standing,
        done=pages.act_done(desk, request),
        controller=_controller(request) or "",
    )


def _made_from(shown: ShownSheet) -> str:
    return pages.fingerprint(sheet.as_dict(shown))


def write(desk: Desk, request: Request, sent: FormData) -> Response:
    """A verdict, defects, a note, a picture about a sheet; a form made from another state is told."""
    number, controller = _number(request), _controller(request)
    shown = show_sheet(desk.book, number, controller)
    form = pages.sent_form(_SHEET, sent)
    if sent.get("made_from") != _made_from(shown):
        return _print_page(desk, request, shown, form, stale=True)
    try:
        _written(desk, number, controller, form, sent)
    except FootlightError as error:
        return _print_page(desk, request, shown, form.with_error(error))
    newest = list_acts(desk.book, 1)[0].id
    of = {"controller": controller} if controller else {}
    return pages.see(f"/prints/{number}?{urlencode({'act': newest, **of})}")


def _written(desk: Desk, number: int, controller: str | None, form: Form, sent: FormData) -> None:
    for name, allowed in (("verdict", VERDICTS), ("defects", DEFECTS)):
        beyond = [text for text in form.values(name) if text not in allowed]
        if beyond:
            raise InputError(f"{field(name)}: '{beyond[0]}' is none of {', '.join(allowed)}")
    made = ()
    if pages.has_file(sent, "picture"):
        with pages.uploaded(sent, "picture") as path:
            made = (small_picture(path),)
    entry = SheetEntry(form.value("verdict"), form.values("defects"), form.value("note"), pictures=made)
    paper = form.value("paper")
    if entry.is_empty and not paper:
        raise InputError("nothing to write: choose a verdict or a defect, or write a note")
    write_sheet(desk.book, number, entry, desk.now_s(), paper=paper or None, controller=controller)


def show_beside(desk: Desk, request: Request, sent: FormData) -> Response:
    """Two prints beside each other: what differs, or everything."""
    fields = (
        Field("left", "Print"),
        Field("right", "beside print"),
        Field("every", "everything, not only what differs", kind="tick"),
    )
    query = request.query_params
    form = Form(fields, {name: query.getlist(name) for name in query})
    # Chosen in the list they come as two of the same name.
    chosen = query.getlist("number")
    if chosen:
        form = Form(fields, {"left": chosen[:1], "right": chosen[1:2], "every": query.getlist("every")})
    rows, numbers = [], []
    try:
        if len(chosen) not in (0, 2):
            raise InputError(f"two prints are laid beside each other; {len(chosen)} were chosen")
        if form.value("left") or form.value("right"):
            numbers = [pages.whole_number(form.value(name), name) for name in ("left", "right")]
            rows = comparison.rows(*recall_prints(desk.book, numbers))
    except FootlightError as error:
        form, numbers = form.with_error(error), []
    shown = [row for row in rows if row.differs or form.value("every")]
    return pages.page(
        request,
        "beside.html",
        title="Two prints beside each other",
        form=form,
        numbers=numbers,
        sections={
            name: [row for row in shown if row.section == name]
            for name in dict.fromkeys(row.section for row in shown)
        },
    )


def show_report(desk: Desk, request: Request, sent: FormData) -> Response:
    """One print on paper."""
    facts = report_print(desk.book, _number(request), _controller(request))
    paper = request.query_params.get("paper", "any")
    page = print_report.report_page(print_report.report_of(facts), paper)
    return HTMLResponse(page, headers={"content-security-policy": PRINTED_POLICY})


def time_line(desk: Desk, request: Request, sent: FormData) -> Response:
    """The time line of the last run, drawn."""
    return drawing(lambda path: show_sheet(desk.book, _number(request), _controller(request), path))


def drawing(draw: Callable[[Path], object]) -> Response:
    """What is drawn into a file, as a picture."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "drawing.svg"
        draw(path)
        headers = {"content-security-policy": PRINTED_POLICY}
        return Response(path.read_bytes(), media_type="image/svg+xml", headers=headers)


def picture(desk: Desk, request: Request, sent: FormData) -> Response:
    """A picture that was kept."""
    which = request.path_params["which"]
    return Response(
        picture_data(desk.book, _number(request), which, _controller(request)), media_type="image/jpeg"
    )


def _number(request: Request) -> int:
    return min(request.path_params["number"], pages.MOST)


def _controller(request: Request) -> str | None:
    return request.query_params.get("controller") or None
