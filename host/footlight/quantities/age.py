"""How old a bath is, as a person says it."""

_DAYS_FROM_H = 48


def format_age_h(hours: float) -> str:
    """`3.2 h`; from two days on `5 days`."""
    return f"{hours:.1f} h" if hours < _DAYS_FROM_H else f"{hours / 24:.0f} days"
