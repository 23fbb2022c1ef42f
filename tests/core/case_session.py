"""Each message is answered by what it asks for, each refusal by its own code, and nothing is done twice."""

import json

from checking import check, finish

from footlight_core import program, wire
from footlight_core.errors import ProgramError, Refusal, StorageError
from footlight_core.session import BUILD, Session, schema

SHA = "ab" * 32


class Room:
    """Store, journal and the rest of a controller in one; notes everything that it is told to do."""

    def __init__(self):
        self.done = []
        self.error = None
        self.idle = True

    def _do(self, *what):
        if self.error:
            raise self.error
        self.done.append(what)

    def slots(self):
        return [[1, "TITLE", SHA[:16]]]

    def begin(self, slot, sha256, length):
        self._do("begin", slot, sha256, length)
        return 5

    def put(self, slot, offset, data):
        self._do("put", slot, offset, data)
        return offset + len(data)

    def commit(self, slot, sha256):
        self._do("commit", slot, sha256)
        return "TITLE"

    def clear(self, slot):
        self._do("clear", slot)

    def state(self):
        return {"epoch": "e0", "first": 3, "last": 9}

    def line(self, number):
        return '{"n":%d}' % number

    def keep_up_to(self, number):
        self._do("kept", number)

    def note_date(self, unix_s):
        self._do("date", unix_s)

    def look(self):
        return {"state": "idle"}

    def is_idle(self):
        return self.idle

    def maintain(self):
        self._do("maintain")

    def sense(self):
        self._do("sense")
        return {"reading": 300, "lit": 0, "t": 5, "tail_ms": -1}

    def known(self):
        return {"fitted": 1, "lamps": [["HEAD", 24_000, 90, 40_000, 60, 1_000]]}

    def fit(self, fitted):
        self._do("fit", fitted)

    def learn(self, params):
        self._do("learn", params["lamp"])

    def count_on(self, sheet):
        self._do("count on", sheet)
        return sheet + 1


class Talk:
    """A session and who asks it; ids count up."""

    def __init__(self, agreed=True, greeted=True):
        self.room = room = Room()
        self.session = Session(
            room, room, {"id": "box"}, room.look, room.is_idle, room.maintain, room.count_on, room.sense
        )
        self.count = 0
        self.hello = {"nonce": "abcd", "least": 1, "most": 1, "schema": schema(), "unix_s": 0}
        if not agreed:
            self.hello["schema"] = "00000000"
        if greeted:
            self.ask("hello", **self.hello)

    def send(self, request):
        """The reply to whatever it is, as it comes out of its frame."""
        return json.loads(wire.unseal(self.session.handle(wire.seal(json.dumps(request)))[1:-1]))

    def ask(self, method, **params):
        """The result of a request, or the name of its refusal."""
        self.count += 1
        message_id = "abcd.%d" % self.count
        reply = self.send({"jsonrpc": "2.0", "id": message_id, "method": method, "params": params})
        check("%s has its id back" % method, (reply["id"], reply["jsonrpc"]), (message_id, "2.0"))
        return name_of(reply["error"]["code"]) if "error" in reply else reply["result"]


def name_of(code):
    """Of a refusal."""
    return [name for name, known in wire.REFUSALS if known == code][0]


# -- what each message is answered -----------------------------------------------------------------
talk = Talk(greeted=False)
check("nobody has greeted", talk.ask("limits"), "greet_first")
hello = talk.ask("hello", **talk.hello)
check("greeted", (hello["agreed"], hello["protocol"], hello["build"]), (True, 1, BUILD))
check("by whom", (hello["id"], hello["epoch"]), ("box", "e0"))
check("no date was told, none is noted", talk.room.done, [])
limits = talk.ask("limits")
check("limits", (limits["bytes"], limits["slots"], limits["chunk"]), (program.MAX_BYTES, 8, 180))
check("status", talk.ask("status"), {"state": "idle"})
check("slots", talk.ask("slots"), {"slots": [[1, "TITLE", SHA[:16]]]})
check("begin", talk.ask("begin", slot=2, sha256=SHA, length=10), {"offset": 5})
check("put", talk.ask("put", slot=2, offset=5, data=wire.pack(b"hello")), {"offset": 10})
check("commit", talk.ask("commit", slot=2, sha256=SHA), {"title": "TITLE"})
check("clear", talk.ask("clear", slot=2), {})
check("records", talk.ask("records", first=4), {"epoch": "e0", "first": 3, "last": 9, "line": '{"n":4}'})
check("kept", talk.ask("kept", last=4), {})
check("numbers", talk.ask("numbers", sheet=41), {"next": 42})
check("more sheets than there can be", talk.ask("numbers", sheet=100_000), "bad_params")
check("maintain", talk.ask("maintain"), {})
DONE = [("begin", 2, SHA, 10), ("put", 2, 5, b"hello"), ("commit", 2, SHA), ("clear", 2), ("kept", 4)]
check("each was done once, in order", talk.room.done, DONE + [("count on", 41), ("maintain",)])

# -- the date --------------------------------------------------------------------------------------
talk = Talk(greeted=False)
talk.ask("hello", **dict(talk.hello, unix_s=1_700_000_000))
talk.room.idle = False
talk.ask("hello", **dict(talk.hello, unix_s=1_700_000_001))
check("a date is noted, but not in a run", talk.room.done, [("date", 1_700_000_000)])

# -- refusals --------------------------------------------------------------------------------------
talk = Talk()
check("no such message", talk.ask("light"), "no_method")
check("parameters that are not its own", talk.ask("clear", slot=9), "bad_params")
check("data that is not base64", talk.ask("put", slot=1, offset=0, data="a"), "bad_params")
talk.room.idle = False
check("not in a run", talk.ask("clear", slot=1), "busy")
check("but a look is allowed", talk.ask("status"), {"state": "idle"})
talk.room.idle = True
for error, wanted in (
    (ProgramError(1, "time_ms", 5, "more"), "bad_program"),
    (StorageError("the flash is worn"), "storage"),
    (Refusal("no_slot"), "no_slot"),
):
    talk.room.error = error
    check("refused by the store: " + wanted, talk.ask("clear", slot=1), wanted)
talk.room.error = ProgramError(1, "time_ms", "x" * 500, "y" * 500)
check("what it says is cut to fit", talk.ask("commit", slot=1, sha256=SHA), "bad_program")
check("nothing was done", talk.room.done, [])

talk = Talk(agreed=False)
check("of another make: no programs", talk.ask("slots"), "versions")
check("but its journal can be read", talk.ask("records", first=3)["line"], '{"n":3}')

# -- lines, ids ------------------------------------------------------------------------------------
talk = Talk()
check("noise is not answered", talk.session.handle(b"login:"), None)
reply = json.loads(wire.unseal(talk.session.handle(wire.seal("{a"))[1:-1]))
check("no JSON", (reply["id"], name_of(reply["error"]["code"])), (None, "not_json"))
for name, request in (
    ("another protocol", {"jsonrpc": "1.0", "id": "abcd.9", "method": "status", "params": {}}),
    ("no protocol", {"id": "abcd.9", "method": "status", "params": {}}),
    ("no id", {"jsonrpc": "2.0", "method": "status", "params": {}}),
):
    check("no request: " + name, name_of(talk.send(request)["error"]["code"]), "not_request")
NUMBER = {"jsonrpc": "2.0", "id": "abcd.9", "method": 7, "params": {}}
check("a method that is a number", name_of(talk.send(NUMBER)["error"]["code"]), "no_method")

stranger = {"jsonrpc": "2.0", "id": "efgh.1", "method": "status", "params": {}}
check("of another greeting", name_of(talk.send(stranger)["error"]["code"]), "greet_first")
sensor = Talk()
told = sensor.ask("sense")
check("the sensor", (told["reading"], told["lamps"][0][0], told["fitted"]), (300, "HEAD", 1))
check("fitted", (sensor.ask("fit", fitted=1), sensor.room.done[-1]), ({}, ("fit", 1)))
learnt = {"lamp": "HEAD", "level": 24_000, "dark": 90, "warm_ms": 0, "tail_ms": 40, "power": 1_000}
check("learnt", (sensor.ask("learn", **learnt), sensor.room.done[-1]), ({}, ("learn", "HEAD")))
sensor.room.idle = False
check("not in a run", (sensor.ask("learn", **learnt), sensor.ask("fit", fitted=0)), ("busy", "busy"))

again = {"jsonrpc": "2.0", "id": "abcd.20", "method": "clear", "params": {"slot": 3}}
first = talk.send(again)
check("the same request again has the same answer", talk.send(again), first)
check("and is not carried out again", talk.room.done, [("clear", 3)])
finish()
