"""The one minus sign of all that is shown: U+2212, as wide as a plus, never a place to break a line."""

MINUS = "−"


def signed_stops(stops: float) -> str:
    """`+0.17 stop`: a difference of exposure [stops] that was measured, to a hundredth."""
    return f"{'+' if stops > 0 else MINUS}{abs(stops):.2f} stop"
