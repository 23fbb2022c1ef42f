"""Requests that are well framed but hostile: the answer is always one whole frame, never an exception."""

import json

from checking import check, finish

from footlight_core import wire
from footlight_core.session import Session, schema


class Store:
    """A store whose list of slots does not fit in a frame."""

    def slots(self):
        return [[1, "X" * 500, ""]]


class Journal:
    """An empty journal."""

    def state(self):
        return {"epoch": "e0", "first": 1, "last": 0}


def make_session():
    """A session that nobody has greeted."""
    return Session(
        Store(), Journal(), {"id": "box"}, dict, lambda: True, lambda: None, lambda sheet: sheet + 1, dict
    )


def ask(session, message_id, method, params):
    """The reply to a request as (id, code of its error or None), checked to be one whole frame."""
    request = {"jsonrpc": "2.0", "id": message_id, "method": method, "params": params}
    reply = session.handle(wire.seal(json.dumps(request)))
    text = wire.unseal(reply[1:-1]) if len(reply) <= wire.MAX_FRAME + 2 else None
    message = json.loads(text) if text else {"id": "not a frame"}
    return message["id"], message.get("error", {}).get("code")


NOT_IDS = (None, 7, [["deep"] * 20] * 2, "x" * 33, "\n" * 32, "\u00e9" * 32, {"a": "b" * 250})
NOT_REQUEST = wire.refusal_code("not_request")
for number, not_id in enumerate(NOT_IDS):
    check("no id %d" % number, ask(make_session(), not_id, "no such", {}), (None, NOT_REQUEST))

LONGEST = '"' * 32
NO_METHOD = wire.refusal_code("no_method")
check("the longest id is echoed", ask(make_session(), LONGEST, "no such", {}), (LONGEST, NO_METHOD))
check("an empty id too", ask(make_session(), "", "no such", {}), ("", NO_METHOD))

session = make_session()
HELLO = {"nonce": "abcd", "least": 1, "most": 1, "schema": schema(), "unix_s": 0}
check("greeted", ask(session, "abcd.1", "hello", HELLO), ("abcd.1", None))
check(
    "an answer that does not fit is a refusal",
    ask(session, "abcd.2", "slots", {}),
    ("abcd.2", wire.refusal_code("too_long")),
)

finish()
