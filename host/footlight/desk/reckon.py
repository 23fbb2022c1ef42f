"""Light, camera, mixes: the answer beside what is asked, with its arithmetic and its doubt."""

from starlette.datastructures import FormData
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from footlight.desk import pages
from footlight.desk.desk import Desk
from footlight.desk.pages import Form
from footlight.desk.sums import SECTIONS, SUMS, Answer
from footlight.errors import FootlightError


def show(desk: Desk, request: Request, sent: FormData) -> Response:
    """What can be reckoned."""
    return pages.page(request, "reckon.html", title="Reckon", sections=SECTIONS)


def show_sum(desk: Desk, request: Request, sent: FormData) -> Response:
    """One sum: an example at first, then what was typed."""
    asked = SUMS.get(request.path_params["name"])
    if asked is None:
        raise HTTPException(404)
    query = request.query_params
    typed = {name: query.getlist(name) for name in query}
    form = Form(
        asked.everything, typed or {one.name: [one.example] for one in asked.everything if one.example}
    )
    answer = Answer([])
    try:
        answer = asked.reckon(form)
    except FootlightError as error:
        form = form.with_error(error)
    return pages.page(
        request, "sum.html", title=asked.title, asked=asked, form=form, answer=answer, is_example=not typed
    )
