"""What reaches the terminal: no control character of anybody's file, title or remark, whatever they hold.

A name that carries an escape sequence could move the cursor, rename the window or hide what stands beside it;
one with a bidirectional control reads otherwise than it is (Unicode Technical Report 36, on spoofing). They
are shown as what they are, in JSON's own spelling, so that a script's JSON stays JSON.
"""

import re

_CONTROLS = [*range(0x20), *range(0x7F, 0xA0)]
_BIDI = [0x061C, 0x200E, 0x200F, 0x2028, 0x2029, *range(0x202A, 0x202F), *range(0x2066, 0x206A)]
_SHOWN = {code: f"\\u{code:04x}" for code in [*_CONTROLS, *_BIDI] if chr(code) not in "\n\t"}
# The tool's own colours: red for what is red in the room, and back.
_OWN = re.compile("(\x1b\\[31m|\x1b\\[0m)")


def plain(text: str) -> str:
    """A text without anything that a terminal would obey."""
    return "".join(part if _OWN.fullmatch(part) else part.translate(_SHOWN) for part in _OWN.split(text))
