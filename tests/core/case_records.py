"""Records of the journal: sealed and read, and what is no record."""

from checking import check, finish

from footlight_core import records, wire

DATE = {"k": "date", "n": 7, "t": 1500, "unix_s": 1_700_000_000}

check("there and back", records.unseal(records.seal(DATE)), DATE)
check("fields of a kind", records.fields_of("date"), ("unix_s",))
check("of no kind", records.fields_of("dance"), None)

ARM = {
    "k": "arm",
    "n": 1,
    "t": 0,
    "run": 1,
    "slot": 1,
    "sha": "a" * 16,
    "title": "T",
    "sheet": 1,
    "sheets": 1,
}
try:
    records.seal(dict(ARM, title="T" * records.MAX_LINE))
    check("a record longer than a line", "sealed", "refused")
except ValueError:
    check("a record longer than a line", "refused", "refused")


def of(**changes):
    """The date's record with changes, sealed and read; None takes a field away."""
    record = dict(DATE)
    record.update(changes)
    record = {key: value for key, value in record.items() if value is not None}
    return records.unseal(wire.seal(wire.dumps(record)))


for name, found in (
    ("torn", records.unseal(records.seal(DATE)[:-1])),
    ("empty", records.unseal(b"")),
    ("whole by its check sum, and no JSON", records.unseal(wire.seal('{"k":'))),
    ("whole by its check sum, and no text", records.unseal(b"{\xff}" + wire.crc_hex(b"{\xff}"))),
    ("of no known kind", of(k="dance")),
    ("of no kind", of(k=None)),
    ("of a kind that is a number", of(k=1)),
    ("without its number", of(n=None)),
    ("with a number that is a text", of(n="7")),
    ("with a number that is true", of(n=True)),
    ("without its time", of(t=None)),
    ("without its field", of(unix_s=None)),
    ("with another field in its place", of(unix_s=None, unix=1)),
    ("with a field too many", of(more=1)),
):
    check("no record: " + name, found, None)
finish()
