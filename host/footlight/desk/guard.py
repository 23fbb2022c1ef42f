"""Who may: this computer's own browser, with the token of the address that was opened; nobody else.

A page elsewhere can make a browser ask 127.0.0.1 for something. Four things stand in its way: `Host` must be
an address of this computer (a name that was pointed here is none), a change must come from our own `Origin`,
the cookie goes along from our own pages only, and no answer may be read, framed or scripted from elsewhere.
"""

import hmac
import secrets
from dataclasses import dataclass, field

from starlette.datastructures import Headers, MutableHeaders, QueryParams
from starlette.requests import cookie_parser
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

_SAFE = ("GET", "HEAD")
_FROM_HERE = ("same-origin", "none")
# Nothing from elsewhere, nothing inline; a page may say another policy, which then stands.
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
# For a page to be printed, which is one file with its own style, and for a drawing.
PRINTED_POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; frame-ancestors 'none'"
_ALWAYS = {
    "x-content-type-options": "nosniff",
    # Without any a browser would say `Origin: null` of our own forms.
    "referrer-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
}
_NO_TOKEN = "Open the address that 'footlight desk' wrote: the way in is in it."


@dataclass(frozen=True)
class Keys:
    """What lets a browser in. hosts: `127.0.0.1:8724` and the like, as `Host` says them."""

    hosts: frozenset[str]
    token: str = field(default_factory=lambda: secrets.token_urlsafe(24))
    # Another value than in the address: that one stays behind in a browser's history.
    cookie: str = field(default_factory=lambda: secrets.token_urlsafe(24))

    @property
    def cookie_name(self) -> str:
        """Cookies know no ports: one of each desk that runs here."""
        return f"footlight-desk-{min(self.hosts).rpartition(':')[2]}"


class Guard:
    """Stands before everything, static files too."""

    def __init__(self, app: ASGIApp, keys: Keys) -> None:
        self._app, self._keys = app, keys

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer it here, or let it through."""
        if scope["type"] != "http":
            return
        refusal = self._refusal(scope["method"], Headers(scope=scope), QueryParams(scope["query_string"]))
        await (refusal or self._app)(scope, receive, _with_headers(send))

    def _refusal(self, method: str, headers: Headers, query: QueryParams) -> Response | None:
        host = headers.get("host", "")
        if host not in self._keys.hosts:
            return PlainTextResponse("This desk is reached at its own address only.", 421)
        if method not in _SAFE and not self._is_from_here(headers, host):
            return PlainTextResponse("A change is taken from the desk's own pages only.", 403)
        if "token" in query:
            return self._let_in(query["token"])
        cookie = cookie_parser(headers.get("cookie", "")).get(self._keys.cookie_name, "")
        if not _same(cookie, self._keys.cookie):
            return PlainTextResponse(_NO_TOKEN, 403)
        return None

    def _is_from_here(self, headers: Headers, host: str) -> bool:
        site = headers.get("sec-fetch-site", "same-origin")
        return headers.get("origin") == f"http://{host}" and site in _FROM_HERE

    def _let_in(self, token: str) -> Response:
        if not _same(token, self._keys.token):
            return PlainTextResponse(_NO_TOKEN, 403)
        response = RedirectResponse("/", 303)
        response.set_cookie(self._keys.cookie_name, self._keys.cookie, httponly=True, samesite="strict")
        return response


def _same(given: str, held: str) -> bool:
    return hmac.compare_digest(given.encode("utf-8", "replace"), held.encode("ascii"))


def _with_headers(send: Send) -> Send:
    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in _ALWAYS.items():
                headers[name] = value
            headers.setdefault("content-security-policy", POLICY)
            headers.setdefault("cache-control", "no-store")
        await send(message)

    return sending
