"""Frames and messages of the link: declared once, for both ends.

A frame is one line of printable ASCII that begins with a newline, so that whatever stood on the line
before cannot spoil it: `\\n{JSON-RPC 2.0}` + CRC-32 in eight lower-case hex digits + `\\n`. A line that
does not start with `{` is somebody else's text and is ignored.
"""

import binascii
import json

from . import const, sensor
from .errors import Refusal

PROTOCOL_LEAST = 1
PROTOCOL_MOST = 1
MAX_FRAME = 400  # bytes of a line without its newlines
CHUNK = 180  # bytes of program in one `put`: 240 characters of base64
MAX_SLOTS = 8
MOST_SHEETS = 99_999

_CRC_CHARS = const(8)
_OPEN = const(0x7B)  # {
_NEWLINE = const(0x0A)
_RETURN = const(0x0D)

# Refusals: (name, JSON-RPC error code). What they mean is said on the computer.
REFUSALS = (
    ("not_json", -32700),
    ("not_request", -32600),
    ("no_method", -32601),
    ("bad_params", -32602),
    ("greet_first", 1),
    ("versions", 2),
    ("busy", 3),
    ("no_upload", 4),
    ("bad_offset", 5),
    ("bad_hash", 6),
    ("bad_program", 7),
    ("storage", 8),
    ("no_slot", 9),
    ("past_end", 10),
    ("too_long", 11),
)

_SHA = (64, 64)
# Messages: (name, parameters, allowed before versions are agreed, only when idle).
# A parameter is (name, type, least, most); for text, least and most count characters.
MESSAGES = (
    (
        "hello",
        (
            ("nonce", str, 4, 16),
            ("least", int, 0, 999),
            ("most", int, 0, 999),
            ("schema", str, 8, 8),
            ("unix_s", int, 0, 1 << 40),
        ),
        True,
        False,
    ),
    ("limits", (), False, False),
    ("status", (), False, False),
    ("slots", (), False, False),
    ("begin", (("slot", int, 1, MAX_SLOTS), ("sha256", str) + _SHA, ("length", int, 1, 6144)), False, True),
    ("put", (("slot", int, 1, MAX_SLOTS), ("offset", int, 0, 6144), ("data", str, 1, 240)), False, True),
    ("commit", (("slot", int, 1, MAX_SLOTS), ("sha256", str) + _SHA), False, True),
    ("clear", (("slot", int, 1, MAX_SLOTS),), False, True),
    # A journal can be read whatever the versions are.
    ("records", (("first", int, 1, 1 << 30),), True, False),
    ("kept", (("last", int, 0, 1 << 30),), True, True),
    # A sheet's number is given once, also by a controller whose memory was lost.
    ("numbers", (("sheet", int, 0, MOST_SHEETS),), False, True),
    # The light sensor: what it reads; is one fitted; what a warm lamp reads (a level of 0 forgets the lamp).
    ("sense", (), False, False),
    ("fit", (("fitted", int, 0, 1),), False, True),
    ("learn", (("lamp", str, 1, 6),) + sensor.LEARNT, False, True),
    ("maintain", (), False, True),
)


def crc_hex(data):
    """CRC-32 (that of IEEE 802.3) of bytes, as eight lower-case hex digits in bytes."""
    return ("%08x" % (binascii.crc32(data) & 0xFFFFFFFF)).encode()


def seal(text):
    """JSON text -> one line of bytes with its check sum, no newline."""
    data = text.encode()
    return data + crc_hex(data)


def unseal(line):
    """A sealed line -> its JSON text, or None if it is not whole."""
    if len(line) <= _CRC_CHARS or line[0] != _OPEN:
        return None
    body, crc = bytes(line[:-_CRC_CHARS]), bytes(line[-_CRC_CHARS:])
    # Compared as bytes: a parsed number would let upper case and signs pass.
    if crc_hex(body) != crc:
        return None
    try:
        return body.decode()
    except UnicodeError:
        return None


def frame(message):
    """A JSON-RPC object -> the bytes of a frame. Raises ValueError when it is too long."""
    line = seal(dumps(message))
    if len(line) > MAX_FRAME:
        raise ValueError("frame of %d bytes; at most %d" % (len(line), MAX_FRAME))
    return b"\n" + line + b"\n"


def dumps(value):
    """Compact JSON in printable ASCII, the same from both interpreters but for the order of keys."""
    try:
        return json.dumps(value, separators=(",", ":"))
    except TypeError:  # an interpreter whose dumps knows no separators
        return json.dumps(value)


def decode(line):
    """A line -> (message, None), (None, refusal name) or (None, None) when it is to be ignored."""
    text = unseal(line)
    if text is None:
        return None, None
    try:
        # It begins with a brace, so it is an object or no JSON.
        return json.loads(text), None
    except (ValueError, RuntimeError):
        return None, "not_json"


class LineBuffer:
    """Collects bytes into lines, in fixed memory; a line that is too long is dropped to its end."""

    def __init__(self, most=MAX_FRAME):
        self._line = bytearray(most)
        self._length = 0
        self._overrun = False

    def feed(self, byte):
        """One byte (int) -> a whole line as bytes, or None. Empty lines are passed over."""
        if byte == _NEWLINE or byte == _RETURN:
            return self._end()
        if self._length == len(self._line):
            self._overrun = True
        else:
            self._line[self._length] = byte
            self._length += 1
        return None

    def _end(self):
        line = None
        if self._length and not self._overrun:
            line = bytes(memoryview(self._line)[: self._length])
        self._length = 0
        self._overrun = False
        return line


def pack(data):
    """Bytes -> base64 text for `put`."""
    return binascii.b2a_base64(data).decode().strip()


def unpack(text):
    """Base64 text of `put` -> bytes. Raises Refusal('bad_params')."""
    try:
        return binascii.a2b_base64(text)
    except ValueError:
        raise Refusal("bad_params", "data is not base64")


def refusal_code(name):
    """The JSON-RPC error code of a refusal."""
    for known, code in REFUSALS:
        if known == name:
            return code
    raise KeyError(name)


def find_message(name):
    """The declaration of a message, or None."""
    for message in MESSAGES:
        if message[0] == name:
            return message
    return None


def check_params(rules, params):
    """Raise Refusal('bad_params') unless `params` are just what `rules` say."""
    if not isinstance(params, dict) or len(params) != len(rules):
        raise Refusal("bad_params", "expected: " + ", ".join(rule[0] for rule in rules))
    for name, kind, least, most in rules:
        value = params.get(name, kind)
        if type(value) is not kind:
            raise Refusal("bad_params", name + " is missing or not " + kind.__name__)
        size = len(value) if kind is str else value
        if not least <= size <= most:
            raise Refusal("bad_params", "%s: allowed %d to %d" % (name, least, most))


def protocol_shared(least, most):
    """The newest protocol that both ranges hold, or 0."""
    newest = min(most, PROTOCOL_MOST)
    return newest if newest >= max(least, PROTOCOL_LEAST) else 0


def schema_hash(rule_tables):
    """A short hash of every declaration: two sides that differ in any of them are of different make."""
    text = repr_rules(MESSAGES) + repr_rules(rule_tables)
    return crc_hex(text.encode()).decode()


def repr_rules(value):
    """A declaration as text, the same on both interpreters (repr of a class is not)."""
    if isinstance(value, (tuple, list)):
        return "(" + ",".join([repr_rules(item) for item in value]) + ")"
    if isinstance(value, type):
        return value.__name__
    return str(value)
