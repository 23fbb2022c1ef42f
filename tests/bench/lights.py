"""Counted light beside seconds, forty lights in one run; what paper had is the witness' own sum."""

from tests.soak.lights import COUNTED, one_lamp, within
from tests.witnesses.lamps.campaign import rows_of

LAMPS = range(5)
SHORT_STOPS, LONG_STOPS, CLOSER = 0.05, 0.02, 0.1


def rows() -> list[tuple]:
    """See `tests.bench`."""
    lights = rows_of([light for lamp in LAMPS for light in one_lamp(lamp)])
    good = [row for row in lights if row.how == COUNTED]
    short, long = [row for row in good if row.asked_s < 1], [row for row in good if row.asked_s >= 1]
    counted, seconds = within(good, lambda row: row.counted), within(good, lambda row: row.seconds)
    note = f"{len(good)} of {len(lights)} lights; by seconds {seconds:.2f} stop"
    over_ms = max(row.gate_ms - row.cap_ms for row in lights)
    return [
        ("counted, 1 to 30 s, 95 % within", within(long, lambda row: row.counted), LONG_STOPS, "stop", note),
        ("counted, 0.3 to 1 s, 95 % within", within(short, lambda row: row.counted), SHORT_STOPS, "stop", ""),
        ("counted against seconds", counted / seconds, CLOSER),
        ("longest light over its cap", over_ms, 1.0, "ms", "below 0: never reached"),
    ]
