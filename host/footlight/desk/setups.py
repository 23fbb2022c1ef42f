"""The light-setups file of the folder as a form: lamps, lenses, heights, and the exposures found good."""

from dataclasses import replace

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response

from footlight.actions import arrange_sequence as arrange
from footlight.actions.arrange_sequence import Draft
from footlight.desk import pages
from footlight.desk.desk import Desk
from footlight.desk.sequence_form import setups_form_of, typed_values
from footlight.desk.sequences import changes_page
from footlight.errors import FootlightError
from footlight.examples import SETUPS

AT = "/setups"


def show(desk: Desk, request: Request, sent: FormData) -> Response:
    """Its lamps and setups, as the file says them."""
    return _page(request, arrange.open_draft(desk.folder / SETUPS))


def edit(desk: Desk, request: Request, sent: FormData) -> Response:
    """What was typed, checked; with the word for it, what would change."""
    draft, wrong = _sent_draft(desk, sent), None
    try:
        draft = arrange.setups_typed(draft, typed_values(setups_form_of(draft, ()), sent))
    except FootlightError as error:
        wrong = error
    if sent.get("do") == "keep":
        draft = replace(draft, made_from=arrange.open_draft(draft.path).made_from)
    if sent.get("do") == "save" and wrong is None:
        return changes_page(request, draft, AT, arrange.setup_faults_of(draft))
    return _page(request, draft, wrong)


def save(desk: Desk, request: Request, sent: FormData) -> Response:
    """The file is written, unless somebody wrote it meanwhile."""
    draft = _sent_draft(desk, sent)
    try:
        arrange.save_setups(draft)
    except FootlightError as error:
        return changes_page(request, draft, AT, arrange.setup_faults_of(draft), error)
    return pages.see(AT)


def _sent_draft(desk: Desk, sent: FormData) -> Draft:
    text = f"{sent.get('text', '')}".replace("\r\n", "\n")
    made_from = f"{sent.get('made_from', '')}"
    return replace(arrange.open_draft(desk.folder / SETUPS), text=text, made_from=made_from)


def _page(request: Request, draft: Draft, wrong: FootlightError | None = None) -> Response:
    faults, shape = arrange.setup_faults_of(draft), None
    try:
        shape = setups_form_of(draft, faults)
    except FootlightError as error:
        wrong = error
    return pages.page(
        request,
        "setups.html",
        title="Light setups",
        file=draft.path.name,
        draft=draft,
        shape=shape,
        faults=faults,
        error=wrong,
        is_stale=arrange.is_stale(draft),
    )
