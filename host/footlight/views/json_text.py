"""The one writer of JSON: nothing of a result is lost, whatever the output can take."""

import json


def json_text(value: object, encoding: str | None = None, indent: int | None = 2) -> str:
    """`value` as JSON; what `encoding` has no character for is written as JSON's own escape (RFC 8259 §7)."""
    text = json.dumps(value, indent=indent, ensure_ascii=False)
    try:
        text.encode(encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return json.dumps(value, indent=indent)
    return text
