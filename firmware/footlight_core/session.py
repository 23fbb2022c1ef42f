"""The session: what each message is answered, and that nothing is done twice.

One request is outstanding at a time. The last reply is kept with its id, `<nonce>.<count>`, so that a
request repeated because its reply was lost is answered from memory and not carried out again; `hello`
brings a new nonce and clears it. **No message lights the lamp**: nothing here can reach it.
"""

from . import program as programs
from . import records, wire
from .errors import ProgramError, Refusal, StorageError

# Raised by one whenever what either side stores or says changes its meaning.
BUILD = 3


def schema():
    """A short hash of every message, step and record that both sides must agree on."""
    return wire.schema_hash((programs.HEAD_RULES, programs.LAMP_RULES, programs.STEP_RULES, records.KINDS))


class Session:
    """Messages in, replies out.

    `store`: `begin` and `put` give the next offset wanted, `commit` the title, `clear` nothing, `slots` a
    list of `[slot, title, first 16 of the sha256]` of the slots in use. `journal`: `state` gives a dict of
    `epoch` (text), `first` and `last` (numbers of the oldest and newest record kept), `line` the sealed
    text of a record, "" for a damaged one or one no longer kept (Refusal past_end beyond the last);
    `keep_up_to`, `note_date`. `facts`: a dict with the controller's `id`. `look`: a callable that gives the
    status, a dict. `is_idle`: a callable. `maintain`: a callable that makes the app end after the reply.
    `count_on`: a callable that is given the greatest sheet number that is used, and gives the next one.
    `sense`: a callable that gives what the light sensor reads, a dict.
    """

    def __init__(self, store, journal, facts, look, is_idle, maintain, count_on, sense):
        self._store = store
        self._journal = journal
        self._facts = facts
        self._look = look
        self._is_idle = is_idle
        self._count_on = count_on
        self._sense = sense
        self._maintain = maintain
        self._schema = schema()
        self._nonce = None
        self._agreed = False
        self._last_id = None
        self._last_reply = None

    def handle(self, line):
        """A line of bytes -> the bytes of the reply, or None when the line is nobody's."""
        message, refused = wire.decode(line)
        if refused:
            return wire.frame(_error(None, Refusal(refused)))
        if message is None:
            return None
        message_id = message.get("id")
        if self._last_reply is not None and message_id == self._last_id:
            return self._last_reply
        reply = _framed(self._answer(message, message_id), message_id)
        self._last_id, self._last_reply = message_id, reply
        return reply

    def _answer(self, message, message_id):
        try:
            rules = self._admit(message, message_id)
            result = getattr(self, "_do_" + rules[0])(message["params"])
        except Refusal as refusal:
            return _error(message_id, refusal)
        except ProgramError as error:
            return _error(message_id, Refusal("bad_program", str(error)[:160]))
        except StorageError as error:
            return _error(message_id, Refusal("storage", str(error)[:160]))
        return {"jsonrpc": "2.0", "id": message_id, "result": result}

    def _admit(self, message, message_id):
        if message.get("jsonrpc") != "2.0" or not _good_id(message_id):
            raise Refusal("not_request")
        name = message.get("method")
        rules = wire.find_message(name) if type(name) is str else None
        if rules is None:
            raise Refusal("no_method")
        wire.check_params(rules[1], message.get("params"))
        if rules[0] != "hello":
            self._admit_known(rules, message_id)
        return rules

    def _admit_known(self, rules, message_id):
        if self._nonce is None or message_id.split(".")[0] != self._nonce:
            raise Refusal("greet_first")
        if not self._agreed and not rules[2]:
            raise Refusal("versions")
        if rules[3] and not self._is_idle():
            raise Refusal("busy")

    def _do_hello(self, params):
        self._nonce = params["nonce"]
        protocol = wire.protocol_shared(params["least"], params["most"])
        self._agreed = protocol > 0 and params["schema"] == self._schema
        state = self._journal.state()
        # A date is only noted between runs: it writes to the flash.
        if params["unix_s"] and self._is_idle():
            self._journal.note_date(params["unix_s"])
        return {
            "protocol": protocol,
            "least": wire.PROTOCOL_LEAST,
            "most": wire.PROTOCOL_MOST,
            "schema": self._schema,
            "build": BUILD,
            "id": self._facts["id"],
            "epoch": state["epoch"],
            "agreed": self._agreed,
        }

    def _do_limits(self, params):
        return {
            "bytes": programs.MAX_BYTES,
            "steps": programs.MAX_STEPS,
            "slots": wire.MAX_SLOTS,
            "chunk": wire.CHUNK,
            "light_cap_ms": programs.LIGHT_CAP_MS,
        }

    def _do_status(self, params):
        return self._look()

    def _do_slots(self, params):
        return {"slots": self._store.slots()}

    def _do_begin(self, params):
        return {"offset": self._store.begin(params["slot"], params["sha256"], params["length"])}

    def _do_put(self, params):
        return {"offset": self._store.put(params["slot"], params["offset"], wire.unpack(params["data"]))}

    def _do_commit(self, params):
        return {"title": self._store.commit(params["slot"], params["sha256"])}

    def _do_clear(self, params):
        self._store.clear(params["slot"])
        return {}

    def _do_records(self, params):
        state = self._journal.state()
        line = self._journal.line(params["first"])
        return {"epoch": state["epoch"], "first": state["first"], "last": state["last"], "line": line}

    def _do_kept(self, params):
        self._journal.keep_up_to(params["last"])
        return {}

    def _do_numbers(self, params):
        return {"next": self._count_on(params["sheet"])}

    def _do_sense(self, params):
        answer = self._sense()
        answer.update(self._store.known())
        return answer

    def _do_fit(self, params):
        self._store.fit(params["fitted"])
        return {}

    def _do_learn(self, params):
        self._store.learn(params)
        return {}

    def _do_maintain(self, params):
        self._maintain()
        return {}


def _good_id(message_id):
    # What is echoed must fit in a frame, whatever a foreign host puts there.
    if type(message_id) is not str or len(message_id) > 32:
        return False
    for char in message_id:
        if not " " <= char <= "~":
            return False
    return True


def _framed(reply, message_id):
    try:
        return wire.frame(reply)
    except ValueError:
        return wire.frame(_error(message_id, Refusal("too_long")))


def _error(message_id, refusal):
    # An id that is no id is answered with none, as JSON-RPC has it.
    message_id = message_id if _good_id(message_id) else None
    error = {"code": wire.refusal_code(refusal.code), "message": refusal.text}
    return {"jsonrpc": "2.0", "id": message_id, "error": error}
