"""What a new batch of paper needs, in words."""

from footlight.actions.match_papers import PaperMatch
from footlight.errors import act, field
from footlight.quantities import format_stops

_WHAT = {"second": "second exposure", "pre-flash": "pre-flash"}


def lines(match: PaperMatch) -> list[str]:
    """The difference, and for which batch it was written."""
    first = f"{_WHAT[match.kind]}: the new paper needs {match.difference}"
    if match.batch is None:
        return [
            first,
            "Not written: the sheet of the new strip is of no batch that is known; name one with"
            f" {field('batch')}.",
        ]
    value = format_stops(round(match.old_stops + match.difference.stops, 2))
    return [
        first,
        f"Written for batch {match.batch}: {value} from the reference; {act('undo')} takes it back.",
    ]


def as_dict(match: PaperMatch) -> dict[str, object]:
    """For a script; differences in stops."""
    return {
        "kind": match.kind,
        "difference_stops": round(match.difference.stops, 4),
        "low_stops": round(match.difference.low_stops, 4),
        "high_stops": round(match.difference.high_stops, 4),
        "batch": match.batch,
        "old_stops": match.old_stops,
    }
