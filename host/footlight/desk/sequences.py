"""The sequences of the folder: a list, one as a form that can be arranged, and what is done with one."""

import re
from collections.abc import Callable, Sequence
from dataclasses import replace

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response

from footlight.actions import arrange_sequence as arrange
from footlight.actions.arrange_sequence import Draft, Fault
from footlight.actions.check_before_run import check_before_run
from footlight.actions.plan_sequence import plan_sequence
from footlight.actions.print_card import print_card
from footlight.actions.print_labels import print_labels
from footlight.actions.send_sequence import send_sequence
from footlight.actions.write_example import write_example
from footlight.desk import pages
from footlight.desk.desk import Desk
from footlight.desk.guard import PRINTED_POLICY
from footlight.desk.pages import Field, Form
from footlight.desk.sequence_form import SequenceForm, form_of, typed_values
from footlight.errors import FootlightError, InputError, field
from footlight.examples import NAMES
from footlight.sequence.step_keys import KINDS
from footlight.views.controller import delivery_line
from footlight.views.plan import plan_lines
from footlight.views.time_line import time_rows, total_text

_NAME = re.compile(r"[^/\\:\0]{1,80}\.toml")
NEW = (
    Field(
        "example",
        "Begin with",
        kind="choice",
        choices=tuple((name, f"{name}: {what}") for name, what in NAMES.items()),
    ),
    Field("file", "Name of the file", example="my-print.toml"),
)
SENDING = (
    Field("in_place", "also in place of another sequence, or another size, of the same title", kind="tick"),
)


def show_list(desk: Desk, request: Request, sent: FormData) -> Response:
    """The sequences that lie in the folder."""
    return _list_page(desk, request, Form(NEW))


def _list_page(desk: Desk, request: Request, form: Form) -> Response:
    return pages.page(
        request,
        "sequences.html",
        status=400 if form.error else 200,
        title="Sequences",
        files=arrange.list_sequences(desk.folder),
        folder=str(desk.folder),
        form=form,
    )


def write_new(desk: Desk, request: Request, sent: FormData) -> Response:
    """A new file, from one that comes along."""
    form = pages.sent_form(NEW, sent)
    try:
        if form.value("example") not in NAMES:
            raise InputError(f"{field('example')}: choose what to begin with")
        path = desk.folder / _file_name(form.value("file") or f"{form.value('example')}.toml", field("file"))
        write_example(form.value("example"), path)
    except FootlightError as error:
        return _list_page(desk, request, form.with_error(error))
    return pages.see(pages.address("/sequence", path.name))


def _file_name(text: str, what: str = "file") -> str:
    if not _NAME.fullmatch(text) or text.startswith("."):
        raise InputError(f"{what}: '{text}' is no name of a sequence file; write for example 'my-print.toml'")
    return text


def _draft(desk: Desk, request: Request) -> Draft:
    """The file of the address, as it is now."""
    return arrange.open_draft(desk.folder / _file_name(request.path_params["file"]))


def _sent_draft(desk: Desk, request: Request, sent: FormData) -> Draft:
    """What the page has made of it so far."""
    text = f"{sent.get('text', '')}".replace("\r\n", "\n")
    return replace(_draft(desk, request), text=text, made_from=f"{sent.get('made_from', '')}")


def show(desk: Desk, request: Request, sent: FormData) -> Response:
    """One sequence, as its file says it."""
    return _edit_page(request, _draft(desk, request))


def edit(desk: Desk, request: Request, sent: FormData) -> Response:
    """What was typed and arranged, checked; nothing is written yet."""
    draft, wrong = _sent_draft(desk, request, sent), None
    act, _, of = f"{sent.get('do', '')}".partition(" ")
    try:
        draft = arrange.typed(draft, typed_values(form_of(draft, ()), sent))
        draft = _ACTS[act](draft, of, sent) if act in _ACTS else draft
    except FootlightError as error:
        wrong = error
    if act == "keep":
        draft = replace(draft, made_from=_draft(desk, request).made_from)
    if act == "save" and wrong is None:
        return _changes_page(request, draft)
    return _edit_page(request, draft, wrong, focus=_focus(act, of))


def _number(text: str) -> int:
    return pages.whole_number(text, "step", least=0)


def _moved(draft: Draft, of: str, sent: FormData) -> Draft:
    number, _, to = of.partition(" ")
    return arrange.move_step(draft, _number(number), _number(to))


def _added(draft: Draft, of: str, sent: FormData) -> Draft:
    after = f"{sent.get('add_after', '')}".strip() or f"{len(draft.kinds)}"
    return arrange.add_step(draft, f"{sent.get('add_kind', '')}", pages.whole_number(after, "add_after", 0))


# What a button of the page does; what is behind its word says of what.
_ACTS: dict[str, Callable[[Draft, str, FormData], Draft]] = {
    "move": _moved,
    "take": lambda draft, of, sent: arrange.take_step(draft, _number(of)),
    "add": _added,
    "add-tray": lambda draft, of, sent: arrange.add_tray(draft, f"{sent.get('new_tray', '')}".strip()),
    "take-tray": lambda draft, of, sent: arrange.take_tray(draft, of),
}


def _focus(act: str, of: str) -> str:
    """The step that was moved: there the hand goes on."""
    return of.partition(" ")[2] if act == "move" else ""


def _edit_page(
    request: Request, draft: Draft, wrong: FootlightError | None = None, focus: str = ""
) -> Response:
    checked = arrange.check_draft(draft)
    shape: SequenceForm | None = None
    try:
        shape = form_of(draft, checked.faults)
    except FootlightError as error:
        wrong = error
    spans = checked.spans
    return pages.page(
        request,
        "sequence.html",
        title=draft.path.name,
        file=draft.path.name,
        draft=draft,
        shape=shape,
        error=wrong,
        rows=time_rows(spans),
        total=total_text(spans) if spans else "",
        faults=checked.faults,
        lights=[light.text for light in checked.compiled.arithmetic] if checked.compiled else [],
        warnings=checked.compiled.warnings if checked.compiled else [],
        is_stale=arrange.is_stale(draft),
        is_changed=bool(arrange.changes_of(draft)),
        kinds=KINDS,
        focus=focus,
    )


def outside(desk: Desk, request: Request, sent: FormData) -> Response:
    """Has the file been changed by somebody else since the page was made? Nothing, while it has not."""
    if _draft(desk, request).made_from == request.query_params.get("made_from"):
        return Response(status_code=204)
    return pages.page(request, "outside.html", title="Changed outside", file=request.path_params["file"])


def _changes_page(request: Request, draft: Draft, error: FootlightError | None = None) -> Response:
    at = pages.address("/sequence", draft.path.name)
    return changes_page(request, draft, at, arrange.check_draft(draft).faults, error)


def changes_page(
    request: Request,
    draft: Draft,
    at: str,
    faults: Sequence[Fault],
    error: FootlightError | None = None,
) -> Response:
    """How a draft differs from its file, and the button that writes it. at: the address of the draft."""
    return pages.page(
        request,
        "changes.html",
        status=409 if error else 200,
        title=f"What changes in {draft.path.name}",
        file=draft.path.name,
        draft=draft,
        at=at,
        lines=arrange.changes_of(draft),
        faults=faults,
        error=error,
        is_stale=arrange.is_stale(draft),
    )


def save(desk: Desk, request: Request, sent: FormData) -> Response:
    """The file is written, unless somebody wrote it meanwhile."""
    draft = _sent_draft(desk, request, sent)
    try:
        arrange.save_draft(draft)
    except FootlightError as error:
        return _changes_page(request, draft, error)
    return pages.see(pages.address("/sequence", draft.path.name) + "/plan")


def show_plan(desk: Desk, request: Request, sent: FormData) -> Response:
    """The plan and the check list of a file, and what can be done with it."""
    return _plan_page(desk, request, Form(SENDING))


def _plan_page(desk: Desk, request: Request, form: Form) -> Response:
    draft = _draft(desk, request)
    plan = plan_sequence(draft.path, desk.book, desk.now_s())
    listed = check_before_run(draft.path, desk.book, desk.now_s())
    return pages.page(
        request,
        "plan.html",
        status=400 if form.error else 200,
        title=f"{listed.title}  {listed.name}",
        file=draft.path.name,
        made_from=draft.made_from,
        form=form,
        plan=plan_lines(plan.compiled, "middle", plan.baths.forecast),
        notes=plan.notes,
        trouble=listed.trouble,
        checks=listed.checks,
    )


def send(desk: Desk, request: Request, sent: FormData) -> Response:
    """To the controller, as the page showed it."""
    form, draft = pages.sent_form(SENDING, sent), _draft(desk, request)
    try:
        if draft.made_from != sent.get("made_from"):
            raise InputError(
                f"{draft.path.name}: was changed since this page was made; look at it, and send it again"
            )
        plan = plan_sequence(draft.path, desk.book, desk.now_s())
        with desk.link.acting():
            delivery = send_sequence(
                plan.compiled, desk.book, desk.now_s(), port=desk.port, in_place=bool(form.value("in_place"))
            )
    except FootlightError as error:
        return _plan_page(desk, request, form.with_error(error))
    lines = [*plan.notes, delivery_line(delivery, len(plan.compiled.data))]
    return pages.page(request, "collected.html", title="Sent", lines=lines)


def show_card(desk: Desk, request: Request, sent: FormData) -> Response:
    """Its wall card, for paper."""
    made = print_card(_draft(desk, request).path, None, (), "any", desk.book, desk.now_s())
    return HTMLResponse(made.html, headers={"content-security-policy": PRINTED_POLICY})


def show_labels(desk: Desk, request: Request, sent: FormData) -> Response:
    """Labels for its trays, for paper."""
    made = print_labels(_draft(desk, request).path, desk.book, "any", desk.now_s())
    return HTMLResponse(made.html, headers={"content-security-policy": PRINTED_POLICY})
