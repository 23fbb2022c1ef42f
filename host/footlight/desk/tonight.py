"""What stands, what waits, what comes next."""

from urllib.parse import quote

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response

from footlight.actions.collect_journal import collect_journal
from footlight.actions.list_baths import BathList
from footlight.actions.see_tonight import see_tonight
from footlight.desk import pages
from footlight.desk.desk import Desk
from footlight.views import baths, journal_home
from footlight.views import tonight as view

_YEAR_S = 365 * 24 * 3600


def to_tonight(desk: Desk, request: Request, sent: FormData) -> Response:
    """The first page."""
    return pages.see("/tonight")


def show(desk: Desk, request: Request, sent: FormData) -> Response:
    """Controller, baths, waiting sheets, the next act."""
    with desk.link.acting():
        seen = see_tonight(desk.book, desk.now_s(), desk.port)
    return pages.page(
        request,
        "tonight.html",
        title="Tonight",
        seen=seen,
        controller=view.controller(seen),
        waiting=view.waiting(seen),
        baths=baths.grid(seen.baths) if seen.baths else None,
        notes=baths.notes(seen.baths) if seen.baths else [],
        bath_links=bath_links(seen.baths) if seen.baths else [],
    )


def bath_links(listed: BathList) -> list[str]:
    """Where each of the baths in use has its page."""
    return [f"/stock/bath/{quote(one.bath.name, safe='')}" for one in listed.shelf.in_use]


def collect(desk: Desk, request: Request, sent: FormData) -> Response:
    """The controller's journal is brought home; what came stands above the evening."""
    with desk.link.acting():
        home = collect_journal(desk.book, desk.now_s(), desk.port)
    return pages.page(request, "collected.html", title="Brought home", lines=journal_home.home_lines(home))


def choose_look(desk: Desk, request: Request, sent: FormData) -> Response:
    """Paper and ink, or reds on black; a browser keeps which."""
    response = pages.see("/tonight")
    if sent.get("look") == "dim":
        response.set_cookie(pages.DIM, "1", max_age=_YEAR_S, httponly=True, samesite="strict")
    else:
        response.delete_cookie(pages.DIM)
    return response
