"""What a counted light is in doubt by, and the sensor's power against paper from two levels."""

import math

import pytest

from footlight.errors import InputError
from footlight.light import counted
from footlight.light.counted import SensorPower
from footlight.light.lamp import drift_stops


def test_counting_takes_the_mains_out():
    by_seconds, by_count = counted.by_seconds(), counted.by_count()
    # 5 % of the mains by the exponent 4.3 (Wien, check values): 0.32 stop below, 0.30 above.
    mains = by_seconds.by_cause()[0]
    assert mains.cause == "the mains"
    assert mains.stops == pytest.approx((drift_stops(241.5, 230) - drift_stops(218.5, 230)) / 2, abs=0.005)
    assert by_count.stops < by_seconds.stops / 8
    assert by_count.by_cause()[0].cause == "the sensor's colour"
    measured = counted.by_count(SensorPower(1.06, 0.03))
    assert measured.stops < by_count.stops


@pytest.mark.parametrize("power", [0.8, 1.0, 1.059, 1.27])
@pytest.mark.parametrize("now", [1.0, 1.1])
def test_the_power_is_found_from_two_doses_of_one_tone(power: float, now: float):
    """Two lights that paper had alike: seconds times level ** power; counted with the power `now`."""
    high_stops, low_stops, paper = 0.02, -0.38, 10.0
    doses = []
    for stops in (high_stops, low_stops):
        level = 2.0**stops
        doses.append(paper / level**power * level**now)
    found = counted.sensor_power(doses[0], doses[1], high_stops, low_stops, now)
    assert found.power == pytest.approx(power, abs=1e-9)
    # Two strips, each matched to 0.03 stop.
    assert found.uncertainty == pytest.approx(0.03 * math.sqrt(2) / 0.4)


@pytest.mark.parametrize(
    ("doses", "levels", "words"), [((8, 8.1), (0, -0.1), "at least 0.15"), ((8, 12), (0, -0.3), "same tone")]
)
def test_what_says_nothing_is_refused(doses: tuple[float, float], levels: tuple[float, float], words: str):
    with pytest.raises(InputError, match=words):
        counted.sensor_power(*doses, *levels, 1.0)
