"""Frames: one case table for writer and reader, whole, byte by byte, with junk before and after."""

from checking import check, finish

from footlight_core import wire
from footlight_core.errors import Refusal

# CRC-32 of `123456789` is CBF43926 (the check value of the CRC catalogue; also printed by crccheck).
check("check value of the CRC", wire.crc_hex(b"123456789"), b"cbf43926")

TEXT = '{"a":1}'
LINE = wire.seal(TEXT)
JUNK = (b"", b"\n", b"MicroPython v1\r\n>>> ", b"\x00\xff\n", b"{broken", b"x" * 900 + b"\n")


def lines(data):
    """Bytes, one by one -> texts of the whole lines."""
    buffer = wire.LineBuffer()
    found = [buffer.feed(byte) for byte in data]
    texts = [wire.unseal(line) for line in found if line is not None]
    return [text for text in texts if text is not None]


for number, junk in enumerate(JUNK):
    check("junk before %d" % number, lines(junk + b"\n" + LINE + b"\n"), [TEXT])
    check("junk after %d" % number, lines(b"\n" + LINE + b"\n" + junk), [TEXT])
check("two frames", lines(b"\n" + LINE + b"\n\n" + LINE + b"\n"), [TEXT, TEXT])
check("a frame cut off, then a whole one", lines(b"\n" + LINE[:-3] + b"\n" + LINE + b"\n"), [TEXT])

spoiled = 0
for place in range(len(LINE)):
    for bit in range(8):
        data = bytearray(LINE)
        data[place] ^= 1 << bit
        if wire.unseal(bytes(data)) is not None:
            spoiled += 1
check("no single wrong bit passes", spoiled, 0)
check("upper case of the check sum does not pass", wire.unseal(TEXT.encode() + LINE[-8:].upper()), None)

check("a list is no request", wire.decode(wire.seal("[1]")), (None, None))
check("not JSON", wire.decode(wire.seal("{a")), (None, "not_json"))
check("an object", wire.decode(LINE), ({"a": 1}, None))
try:
    wire.frame({"a": "x" * 400})
    check("a frame that is too long", "sent", "refused")
except ValueError:
    check("a frame that is too long", "refused", "refused")

check("base64 there and back", wire.unpack(wire.pack(b"\x00\xff{}")), b"\x00\xff{}")
for least, most, wanted in ((1, 1, 1), (1, 9, 1), (2, 9, 0), (0, 0, 0), (5, 2, 0)):
    check("protocols %d to %d" % (least, most), wire.protocol_shared(least, most), wanted)

RULES = (("slot", int, 1, 8), ("data", str, 1, 4))


def verdict(params):
    """`fine`, or the refusal."""
    try:
        wire.check_params(RULES, params)
    except Refusal as refusal:
        return refusal.code
    return "fine"


for name, params, wanted in (
    ("both", {"slot": 1, "data": "abcd"}, "fine"),
    ("one missing", {"slot": 1}, "bad_params"),
    ("one more", {"slot": 1, "data": "a", "x": 1}, "bad_params"),
    ("out of range", {"slot": 9, "data": "a"}, "bad_params"),
    ("true is no number", {"slot": True, "data": "a"}, "bad_params"),
    ("no object", [1, "a"], "bad_params"),
    ("no text", {"slot": 1, "data": ""}, "bad_params"),
):
    check("parameters: " + name, verdict(params), wanted)
try:
    wire.unpack("a")
    check("half a letter of base64", "unpacked", "bad_params")
except Refusal as refusal:
    check("half a letter of base64", refusal.code, "bad_params")
check("a line whose bytes are no text", wire.decode(b"{\xff}" + wire.crc_hex(b"{\xff}")), (None, None))
try:
    wire.refusal_code("no such refusal")
    check("a refusal that is not declared", "has a code", "has none")
except KeyError:
    check("a refusal that is not declared", "has none", "has none")
check("of a range and a kind", wire.repr_rules(("slot", int, 1, (8,))), "(slot,int,1,(8))")


class Plain:
    """A `json` whose dumps knows no separators, as that of a small interpreter."""

    @staticmethod
    def dumps(value):
        return str(value)


whole, wire.json = wire.json, Plain
check("separators are not needed", wire.dumps(7), "7")
wire.json = whole
names = [message[0] for message in wire.MESSAGES]
check("no message name twice", len(names), len(set(names)))
finish()
