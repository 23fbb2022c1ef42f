"""A counted light, from its records to what `sheet` and `drift` say."""

import math

import pytest
from tests.host.cli.day import Day, day
from tests.host.notebook.journals import BOOT, DATED, SHA, arm

from footlight.actions.trace_drift import Drift, DriftLight
from footlight.views import drift as drift_view

__all__ = ["day"]

INTENT = (11_000, "intent", 2, 2, 50, 10_000, 10_050, SHA[:16])


def lit(gate_ms: int, dose_ms: int, mean: int, how: str, gave: str = "whole", left_ms: int = 0):
    return [
        (25_000, "gave", 2, 2, 50, gate_ms, dose_ms, left_ms, gave),
        (25_000, "dose", 2, 2, 50, dose_ms, mean - 9, mean, mean + 9, how),
    ]


@pytest.mark.parametrize(
    ("lights", "words"),
    [
        # 0.927 is 0.11 stop low.
        ([INTENT, *lit(10_800, 10_000, 927, "counted")], "10.0 s counted in 10.8 s: lamp 0.11 stop low"),
        ([INTENT, *lit(9_000, 10_000, 1_149, "counted")], "10.0 s counted in 9.0 s: lamp 0.20 stop high"),
        (
            [INTENT, *lit(10_050, 10_000, 1_000, "stuck")],
            "by seconds: the sensor's reading did not move at all",
        ),
        (
            [
                INTENT,
                *lit(4_400, 4_000, 900, "counted", "held", 6_000),
                (26_000, "intent", 2, 2, 50, 6_000, 6_050, SHA[:16]),
                *lit(6_600, 6_000, 900, "counted"),
            ],
            "10.0 s counted in 11.0 s: lamp 0.15 stop low",
        ),
    ],
)
def test_a_sheet_tells_how_its_light_was_measured(day: Day, lights: list[tuple[object, ...]], words: str):
    day.home(BOOT, DATED, arm(10_000, 2, 50), *lights, (30_000, "end", 2, 50, "whole"))
    assert words in " ".join(day.asked("sheet 50").split())
    (row,) = [row for row in day.json("sheet 50")["runs"][0]["rows"] if row["light"]]
    assert sum(part["dose_ms"] for part in row["measured"]) == 10_000
    assert row["least_ms"] == row["most_ms"] == 10_000


def test_a_measure_without_its_light_is_passed_over(day: Day):
    """The record of the light is damaged, and the one of its measure whole."""
    day.home(BOOT, DATED, arm(10_000, 2, 50), INTENT, lit(10_800, 10_000, 927, "counted")[1])
    assert day.json("sheet 50")["runs"][0]["rows"][0]["measured"] == []


def ageing(*levels: float) -> Drift:
    """Lights a week apart, of these levels."""
    lights = [
        DriftLight(number, number * 7 * 86_400, 0.0, 0.0, 0.0, math.log2(level))
        for number, level in enumerate(levels, 1)
    ]
    return Drift("second", "6 s at 620 mm", tuple(lights), (), 0)


@pytest.mark.parametrize(
    ("levels", "words"),
    [
        ((1.0, 1.01, 0.99), "lamp as learnt"),
        ((1.0, 0.95, 0.90, 0.90, 0.90, 0.90, 0.90), "learn it anew"),
        ((0.80, 0.80, 0.80), "change the bulb"),
        ((1.2, 1.2, 1.2), "learn it anew"),
    ],
)
def test_an_ageing_lamp_is_told_and_what_to_do(levels: tuple[float, ...], words: str):
    assert words in " ".join(drift_view.ageing_lines(ageing(*levels)))


def test_how_fast_it_ages():
    drift = ageing(*[2 ** (-0.01 * week) for week in range(12)])
    assert drift.ageing and drift.ageing.month_stops == pytest.approx(-0.01 * 30 / 7, abs=1e-6)
    assert drift.ageing.lights == 10 and drift.ageing.stops == pytest.approx(-0.065)


def test_two_lights_say_nothing_of_a_lamp():
    assert ageing(0.8, 0.8).ageing is None
