"""Every address of the desk, and what answers it."""

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import ClientDisconnect, Request
from starlette.responses import Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp

from footlight.desk import (
    begin,
    entering,
    history,
    live,
    pages,
    prints,
    reckon,
    sequences,
    setups,
    stock,
    strips,
    tonight,
)
from footlight.desk.desk import Desk
from footlight.desk.guard import Guard, Keys
from footlight.errors import FootlightError, InputError

Answer = Callable[[Desk, Request, FormData], Response]
# A form with a picture or a scan; whatever is longer is no scan of a sheet of paper.
MOST_BYTES = 600_000_000
_DRAINED_BYTES = 8_000_000_000


@dataclass(frozen=True)
class Row:
    """An address, and what answers it."""

    path: str
    answer: Answer
    changes: bool = False


ROWS = (
    Row("/", tonight.to_tonight),
    Row("/tonight", tonight.show),
    Row("/tonight/run", live.show),
    Row("/tonight/collect", tonight.collect, changes=True),
    Row("/begin", begin.show),
    Row("/look", tonight.choose_look, changes=True),
    Row("/sequence", sequences.show_list),
    Row("/sequence/new", sequences.write_new, changes=True),
    Row("/sequence/{file}", sequences.show),
    Row("/sequence/{file}", sequences.edit, changes=True),
    Row("/sequence/{file}/outside", sequences.outside),
    Row("/sequence/{file}/save", sequences.save, changes=True),
    Row("/sequence/{file}/plan", sequences.show_plan),
    Row("/sequence/{file}/send", sequences.send, changes=True),
    Row("/sequence/{file}/card", sequences.show_card),
    Row("/sequence/{file}/labels", sequences.show_labels),
    Row("/setups", setups.show),
    Row("/setups", setups.edit, changes=True),
    Row("/setups/save", setups.save, changes=True),
    Row("/reckon", reckon.show),
    Row("/reckon/{name}", reckon.show_sum),
    Row("/strip", strips.show_begin),
    Row("/strip", strips.drop, changes=True),
    Row("/strip/scan/{id}", strips.show_scan),
    Row("/strip/scan/{id}/keep", strips.keep, changes=True),
    Row("/strip/scan/{id}/{what}.png", strips.picture),
    Row("/strip/accept/{number:int}", strips.show_acceptance),
    Row("/strip/accept/{number:int}", strips.accept, changes=True),
    Row("/prints", prints.show_list),
    Row("/prints/search", prints.search),
    Row("/prints/beside", prints.show_beside),
    Row("/prints/{number:int}", prints.show_print),
    Row("/prints/{number:int}/write", prints.write, changes=True),
    Row("/prints/{number:int}/report", prints.show_report),
    Row("/prints/{number:int}/time-line.svg", prints.time_line),
    Row("/prints/{number:int}/picture/{which:int}", prints.picture),
    Row("/stock", stock.show),
    Row("/stock/bath/{name:path}", stock.show_bath),
    Row("/stock/bath-chart/{name:path}", stock.bath_chart),
    Row("/stock/setup/{name:path}", stock.show_setup),
    Row("/stock/setup-drift/{name:path}", stock.setup_drift),
    Row("/stock/enter/{name}", entering.show),
    Row("/stock/enter/{name}", entering.enter, changes=True),
    Row("/stock/paper/{name:path}", stock.show_paper),
    Row("/stock/lens/{name:path}", stock.show_lens),
    Row("/history", history.show),
    Row("/history/turn", history.turn, changes=True),
)


def make_app(desk: Desk, keys: Keys) -> ASGIApp:
    """The desk as an application that a server carries."""
    return Starlette(
        routes=[
            *(_route(desk, row) for row in ROWS),
            Route("/tonight/run/moments", live.moments_of(desk)),
            Mount("/static", StaticFiles(directory=pages.HERE / "static")),
        ],
        middleware=[Middleware(Guard, keys=keys)],
        exception_handlers={FootlightError: _told, HTTPException: _not_there},
    )


def _route(desk: Desk, row: Row) -> Route:
    async def endpoint(request: Request) -> Response:
        if not row.changes:
            return await run_in_threadpool(row.answer, desk, request, FormData())
        await _refuse_long(request)
        async with request.form(max_files=20, max_fields=2000, max_part_size=MOST_BYTES) as sent:
            return await run_in_threadpool(row.answer, desk, request, sent)

    return Route(row.path, endpoint, methods=["POST"] if row.changes else ["GET"])


async def _refuse_long(request: Request) -> None:
    """Raise InputError for more than a scan may be; it is read first, or no browser shows the answer."""
    length = request.headers.get("content-length", "")
    if not length.isdecimal():
        raise InputError("a form without its length is not taken")
    if int(length) <= MOST_BYTES:
        return
    dropped = 0
    with suppress(ClientDisconnect):
        async for chunk in request.stream():
            dropped += len(chunk)
            if dropped > _DRAINED_BYTES:
                break
    raise InputError(
        f"{int(length) / 1e6:.0f} MB were sent, and at most {MOST_BYTES / 1e6:.0f} MB are taken: scan at 300"
        " to 600 dots an inch, grey, and cut the strip out"
    )


async def _told(request: Request, error: Exception) -> Response:
    assert isinstance(error, FootlightError)
    return await run_in_threadpool(pages.trouble, request, error)


async def _not_there(request: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)
    return pages.trouble(request, InputError("there is no such page"), error.status_code)
