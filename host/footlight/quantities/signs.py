"""The one minus sign of all that is shown: U+2212, as wide as a plus, never a place to break a line."""

MINUS = "−"
