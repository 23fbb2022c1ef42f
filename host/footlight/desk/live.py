"""A run as it goes on: one follower for all pages, by the same action as `watch`; it changes nothing."""

import asyncio
import time
from collections.abc import AsyncIterator, Awaitable, Callable
from threading import Lock, Thread
from typing import Any

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response, StreamingResponse

from footlight.actions.watch_run import AWAY_S, POLL_S, RunStatus, watch_run
from footlight.desk import pages
from footlight.desk.desk import Desk
from footlight.errors import FootlightError
from footlight.views.run_rows import run_rows
from footlight.views.run_status import status_lines

Moment = RunStatus | str


class Follower:
    """Follows the controller for as long as somebody looks; the last moment is everybody's."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._lock = Lock()
        self._looking = 0
        self._thread: Thread | None = None
        self.last: Moment = "looking for the controller"

    def come(self) -> None:
        """Somebody looks."""
        with self._lock:
            self._looking += 1
            if self._thread is None:
                self._thread = Thread(target=self._follow, daemon=True)
                self._thread.start()

    def go(self) -> None:
        """Somebody looks no more."""
        with self._lock:
            self._looking -= 1

    def _is_left(self) -> bool:
        with self._lock:
            if self._looking:
                return False
            self._thread = None
            return True

    def _follow(self) -> None:
        while not self._is_left():
            with self._desk.link.following():
                self._look_on()
            # Whoever acts comes in between.
            time.sleep(POLL_S if self._desk.link.is_wanted or isinstance(self.last, RunStatus) else AWAY_S)

    def _look_on(self) -> None:
        """Moments until somebody wants the link, nobody looks, or the controller is away."""
        try:
            source = watch_run(self._desk.book, self._desk.port)
        except FootlightError as error:
            self.last = f"{error}"
            return
        try:
            for moment in source.moments():
                self.last = moment
                if isinstance(moment, str) or self._desk.link.is_wanted or not self._looking:
                    return
        except FootlightError as error:
            self.last = f"{error}"
        finally:
            source.close()


def show(desk: Desk, request: Request, sent: FormData) -> Response:
    """The run at this moment; with a script it goes on by itself."""
    return pages.page(request, "run.html", title="The run", **_told(_now(desk)))


def _now(desk: Desk) -> Moment:
    try:
        with desk.link.acting():
            source = watch_run(desk.book, desk.port)
            try:
                return source.now()
            finally:
                source.close()
    except FootlightError as error:
        return f"{error}"


def _told(moment: Moment) -> dict[str, Any]:
    if isinstance(moment, str):
        return {"away": moment, "lines": [], "rows": [], "state": "away"}
    return {
        "away": "",
        "lines": status_lines(moment),
        "rows": run_rows(moment),
        "state": moment.status["state"],
    }


def moments_of(desk: Desk) -> Callable[[Request], Awaitable[Response]]:
    """The answer to a page that follows: an event for each moment that looks otherwise than the last."""
    follower = Follower(desk)

    async def events() -> AsyncIterator[str]:
        follower.come()
        try:
            last = ""
            while True:
                told = pages.part("run.html", _told(follower.last))
                if told != last:
                    last = told
                    yield "".join(f"data: {line}\n" for line in told.splitlines()) + "\n"
                await asyncio.sleep(POLL_S)
        finally:
            follower.go()

    async def moments(request: Request) -> Response:
        return StreamingResponse(events(), media_type="text/event-stream")

    return moments
