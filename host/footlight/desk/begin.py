"""The first set-up, stage by stage: each leads to the page where it is done."""

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response

from footlight.actions.see_beginning import Part, see_beginning
from footlight.desk import pages
from footlight.desk.desk import Desk
from footlight.views import beginning

_WHERE: dict[Part, str] = {
    "sequence": "/sequence",
    "setups": "/setups",
    "paper": "/stock/enter/paper-added",
    "baths": "/stock/enter/bath-mixed",
    "lens": "/stock/enter/lens-added",
    "strip": "/strip",
}


def show(desk: Desk, request: Request, sent: FormData) -> Response:
    """What is there, and what comes next."""
    stages = beginning.told(see_beginning(desk.book, desk.folder, desk.now_s()))
    open_ones = [stage.part for stage in stages if not stage.is_done]
    return pages.page(
        request,
        "begin.html",
        title="Begin",
        stages=stages,
        where=_WHERE,
        next=open_ones[0] if open_ones else "",
    )
