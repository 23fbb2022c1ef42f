"""How sure a time is, and why: first-order propagation with a name for every term.

A time is a product of powers, so each input that is off by a little shifts log2(time) by its own number
of stops, and independent shifts add as squares. A term is one such shift (one standard uncertainty);
a `Budget` is the sum and says which term weighs most. Source: JCGM 100:2008 (GUM) §5.1.2. What is told as
± holds the truth in two of three cases (68.27 %), also where a term is not normal: then the distributions
are added and not only their variances (JCGM 101:2008 §5).
"""

import math
from dataclasses import dataclass
from typing import Literal, NamedTuple

LN2 = math.log(2.0)

# Shares of the variance: above the first one cause is named as 'mostly', else all causes above the second.
_MOST = 0.5
_WORTH_NAMING = 0.2
_NEGLIGIBLE_STOPS = 0.005
# The share within one standard uncertainty of a normal distribution: what every ± is meant to hold.
SHARE_HELD = math.erf(1 / math.sqrt(2))
_HALVINGS = 48

Shape = Literal["normal", "uniform"]


class Term(NamedTuple):
    """One cause of doubt: `cause` ("the height"), `detail` ("± 10 mm"), and what it does [stops], 1 sigma.

    shape: uniform for a value that may lie anywhere within limits, √3 times `stops` to either side.
    """

    cause: str
    detail: str
    stops: float
    shape: Shape = "normal"


@dataclass(frozen=True)
class Budget:
    """The causes of doubt of one result, taken as independent."""

    terms: tuple[Term, ...] = ()

    @property
    def standard_stops(self) -> float:
        """Standard uncertainty of the whole [stops]."""
        return math.hypot(*(term.stops for term in self.terms)) if self.terms else 0.0

    @property
    def stops(self) -> float:
        """Half-width [stops] that holds the truth in two of three cases: what is told as ±."""
        uniform = max((term.stops for term in self.terms if term.shape == "uniform"), default=0.0)
        # A second uniform term beside the widest one is near enough to a normal one.
        normal = math.sqrt(max(0.0, self.standard_stops**2 - uniform**2))
        return held_stops(normal, math.sqrt(3) * uniform)

    @property
    def factor(self) -> float:
        """The same as a factor: the time lies between t/factor and t·factor in about two of three cases."""
        return 2.0**self.stops

    def by_cause(self) -> list[Term]:
        """One term a cause, the heaviest first: two heights are one cause."""
        causes: dict[str, Term] = {}
        for term in self.terms:
            other = causes.get(term.cause)
            stops = math.hypot(term.stops, other.stops) if other else abs(term.stops)
            detail = other.detail if other and other.stops > abs(term.stops) else term.detail
            causes[term.cause] = Term(term.cause, detail, stops)
        return sorted(causes.values(), key=lambda term: -term.stops)

    def __str__(self) -> str:
        """`± 0.08 stop, mostly the height (± 10 mm)`; empty where nothing is in doubt."""
        if self.stops < _NEGLIGIBLE_STOPS:
            return ""
        ordered = self.by_cause()
        shares = [(term.stops / self.standard_stops) ** 2 for term in ordered]
        if shares[0] >= _MOST:
            word = "mostly " if len(ordered) > 1 and shares[0] < 0.999 else "from "
            return f"± {self.stops:.2f} stop, {word}{_named(ordered[0])}"
        named = [term for term, share in zip(ordered, shares, strict=True) if share >= _WORTH_NAMING]
        return f"± {self.stops:.2f} stop, from {' and '.join(_named(term) for term in named)}"

    def with_terms(self, *more: Term) -> "Budget":
        """This budget and further terms."""
        return Budget(self.terms + more)

    def as_dict(self) -> dict[str, object]:
        """For `--json`."""
        terms = [
            {"cause": term.cause, "detail": term.detail, "stops": round(term.stops, 4)} for term in self.terms
        ]
        return {"stops": round(self.stops, 4), "terms": terms}


def _named(term: Term) -> str:
    return f"{term.cause} ({term.detail})"


def held_stops(normal: float, limit: float) -> float:
    """Half-width h of the sum of a normal shift (1 sigma `normal`) and one anywhere within ± `limit` that
    holds SHARE_HELD of it; all in one unit.

    P(|X| < h) = 2F(h) − 1 with F(h) = s/2a · (G((h + a)/s) − G((h − a)/s)), G(z) = zΦ(z) + φ(z).
    """
    if limit <= 1e-3 * normal:
        return math.hypot(normal, limit / math.sqrt(3))
    if normal <= 1e-3 * limit:
        return SHARE_HELD * limit
    low, high = 0.0, normal + limit
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if _share_within(middle, normal, limit) < SHARE_HELD else (low, middle)
    return high


def _share_within(half: float, normal: float, limit: float) -> float:
    ends = (_under_normal((half + limit) / normal), _under_normal((half - limit) / normal))
    return normal / limit * (ends[0] - ends[1]) - 1


def _under_normal(z: float) -> float:
    """Integral of the normal distribution's Φ up to z."""
    return z * (1 + math.erf(z / math.sqrt(2))) / 2 + math.exp(-z * z / 2) / math.sqrt(2 * math.pi)


def power_stops(value: float, uncertainty: float, exponent: float) -> float:
    """Shift [stops] of a result ∝ value**exponent, when `value` is off by `uncertainty` (same unit).

    First order: exponent · (uncertainty / value) / ln 2.
    """
    return abs(exponent * uncertainty / value) / LN2
