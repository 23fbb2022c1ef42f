"""A strip's curve as a small drawing: density against dose, black on white, in the page itself."""

from collections.abc import Mapping, Sequence

from footlight.report.pages.frame import text

Points = Sequence[tuple[float, float]]
_WIDE, _HIGH, _LEFT, _BELOW, _TOP = 360.0, 190.0, 34.0, 30.0, 12.0
_LOOKS = ("", "6 3", "2 2", "8 3 2 3")


def svg(bands: Mapping[str, Points], given_stops: float | None = None) -> str:
    """The drawing [SVG text]; nothing without two points.

    bands: name -> (dose [stops from that of then], density [D]) in order. given_stops: marked by a line.
    """
    points = [point for band in bands.values() for point in band]
    if len(points) < 2:
        return ""
    at = _Axes(points)
    drawn = [_band(at, number, points) for number, points in enumerate(bands.values())]
    marked = "" if given_stops is None else _mark(at, given_stops)
    keys = [_key(number, name) for number, name in enumerate(bands)]
    body = "".join([*at.rules(), *drawn, marked, *keys])
    return (
        f'<svg viewBox="0 0 {_WIDE:g} {_HIGH:g}" font-size="9" font-family="Arial, sans-serif">{body}</svg>'
    )


class _Axes:
    """Where a dose and a density come to lie in the drawing."""

    def __init__(self, points: Points) -> None:
        doses, densities = zip(*points, strict=True)
        self.least, self.most = min(doses), max(max(doses), min(doses) + 0.5)
        self.top_d = max(0.5, *densities) * 1.08

    def x(self, stops: float) -> float:
        return _LEFT + (_WIDE - _LEFT - 12) * (stops - self.least) / (self.most - self.least)

    def y(self, density_d: float) -> float:
        return _HIGH - _BELOW - (_HIGH - _BELOW - _TOP) * density_d / self.top_d

    def rules(self) -> list[str]:
        """Half densities up, whole stops across, and what they are."""
        ups = [step / 2 for step in range(int(self.top_d * 2) + 1)]
        across = range(int(self.least // 1), int(self.most // 1) + 1)
        lines = [
            f'<path d="M{_LEFT} {self.y(d):.1f}H{_WIDE - 12}" stroke="#000" stroke-width="0.3"/>'
            f'<text x="{_LEFT - 4}" y="{self.y(d) + 3:.1f}" text-anchor="end">{d:.1f}</text>'
            for d in ups
        ]
        lines += [
            f'<path d="M{self.x(s):.1f} {_TOP}V{_HIGH - _BELOW}" stroke="#000" stroke-width="0.3"/>'
            f'<text x="{self.x(s):.1f}" y="{_HIGH - _BELOW + 11}" text-anchor="middle">{_signed(s)}</text>'
            for s in across
            if self.least <= s <= self.most
        ]
        return [
            *lines,
            f'<text x="{_WIDE / 2}" y="{_HIGH - 5}" text-anchor="middle">dose, stops; up: density</text>',
        ]


def _band(at: _Axes, number: int, points: Points) -> str:
    places = [(at.x(stops), at.y(density_d)) for stops, density_d in points]
    path = "L".join(f"{x:.1f} {y:.1f}" for x, y in places)
    dots = "".join(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="2"/>' for x, y in places)
    return f'<path d="M{path}" fill="none" stroke="#000" stroke-width="1.2" {_dashes(number)}/>{dots}'


def _mark(at: _Axes, stops: float) -> str:
    if not at.least <= stops <= at.most:
        return ""
    x = at.x(stops)
    return (
        f'<path d="M{x:.1f} {_TOP}V{_HIGH - _BELOW}" stroke="#000" stroke-width="1.6"/>'
        f'<text x="{x + 3:.1f}" y="{_TOP + 8}">advised</text>'
    )


def _key(number: int, name: str) -> str:
    x = _LEFT + 8 + number * 80
    return (
        f'<path d="M{x} {_TOP - 5}h22" stroke="#000" stroke-width="1.2" {_dashes(number)}/>'
        f'<text x="{x + 26}" y="{_TOP - 2}">{text(name)}</text>'
    )


def _signed(stops: int) -> str:
    return f"{stops:+d}" if stops else "0"


def _dashes(number: int) -> str:
    return f'stroke-dasharray="{_LOOKS[number % len(_LOOKS)]}"'
