"""What was entered; each of it taken back, or let stand again."""

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response

from footlight.actions.list_acts import list_acts
from footlight.actions.turn_act import reinstate_act, undo_act
from footlight.desk import pages
from footlight.desk.desk import Desk
from footlight.errors import FootlightError
from footlight.views import acts
from footlight.views.times import date_text

_PAGE = 50
# What is asked of an act -> what does it, what it says that it did, whether it stood when the page was made.
_TURNS = {"undo": (undo_act, "taken back", True), "reinstate": (reinstate_act, "stands again", False)}


def show(desk: Desk, request: Request, sent: FormData) -> Response:
    """Everything that was entered, the newest first."""
    return _page(desk, request)


def _page(
    desk: Desk, request: Request, lines: list[str] | None = None, error: FootlightError | None = None
) -> Response:
    most = request.query_params.get("last", f"{_PAGE}")
    entered = list_acts(desk.book, pages.whole_number(most, "last"))
    return pages.page(
        request,
        "history.html",
        status=400 if error else 200,
        title="History",
        acts=[
            {
                "id": act.id,
                "date": date_text(act.done_unix_s),
                "said": acts.told(act),
                "stands": act.undone_unix_s is None,
            }
            for act in entered
        ],
        more=int(most) + 4 * _PAGE if len(entered) == int(most) else 0,
        lines=lines or [],
        error=error,
    )


def turn(desk: Desk, request: Request, sent: FormData) -> Response:
    """One act is taken back, or stands again: the one that the button named, whatever came after."""
    try:
        number = pages.whole_number(f"{sent.get('act', '')}", "act")
        does, what, _ = _TURNS[f"{sent.get('turn', 'undo')}"]
        done = does(desk.book, number, desk.now_s())
    except FootlightError as error:
        return _page(desk, request, error=error)
    return _page(desk, request, acts.turned(what, done))
