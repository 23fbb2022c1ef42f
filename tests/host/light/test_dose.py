"""Doses in lux-seconds and the bridging strip between two lights."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footlight.errors import InputError
from footlight.light.dose import Bridge, Dose, exposure_of, measured
from footlight.light.setup import LightSetup, MeterReading
from footlight.quantities import parse_stop

F11 = parse_stop("f/11", "stop")
SETUP = LightSetup("second", "head", "80 mm", 80.0, F11, 620, meter=MeterReading(12, 620, F11))
BRIDGE = Bridge(Dose(60, "head"), Dose(90, "bulb", "yellow"))


# ISO 6846: speed P = 1000/H_m, so H_m = 10, 5 and 2 lx s for P100, P200, P500 (formula from memory);
# time = H/E by arithmetic.
@pytest.mark.parametrize(("speed", "seconds"), [(100, 10 / 12), (200, 5 / 12), (500, 2 / 12)])
def test_time_for_a_published_dose(speed, seconds):
    found = exposure_of(Dose(1000 / speed, "head"), SETUP)
    assert found.seconds == pytest.approx(seconds)
    assert found.budget.stops == pytest.approx(0.1)
    assert "the meter" in found.summary


def test_a_dose_is_seconds_times_lux():
    assert measured(6, 12, "head").lux_s == 72
    assert str(measured(6, 12, "head")) == "72 lx s"


def test_another_light_is_refused_without_a_bridge():
    with pytest.raises(InputError, match="make a bridging"):
        exposure_of(Dose(60, "bulb", "yellow"), SETUP)
    with pytest.raises(InputError, match="make a bridging"):
        exposure_of(Dose(60, "head", "yellow"), SETUP)


def test_a_bridge_carries_both_ways():
    assert BRIDGE.stops == pytest.approx(math.log2(1.5))
    assert BRIDGE.carry(Dose(120, "head")) == Dose(180, "bulb", "yellow")
    assert BRIDGE.carry(Dose(180, "bulb", "yellow")) == Dose(120, "head")


@given(st.floats(0.1, 1e4))
def test_over_the_bridge_and_back(lux_s):
    assert BRIDGE.carry(BRIDGE.carry(Dose(lux_s, "head"))).lux_s == pytest.approx(lux_s)


def test_the_bridge_adds_its_doubt():
    found = exposure_of(Dose(90, "bulb", "yellow"), SETUP, BRIDGE)
    assert found.seconds == pytest.approx(60 / 12)
    assert found.budget.stops == pytest.approx(math.hypot(0.1, 1 / 6))


def test_a_bridge_that_leads_elsewhere_is_refused():
    with pytest.raises(InputError, match="make one"):
        BRIDGE.carry(Dose(60, "third"))
    with pytest.raises(InputError, match="leads to"):
        exposure_of(Dose(60, "bulb", "yellow"), SETUP, Bridge(Dose(60, "bulb", "yellow"), Dose(60, "third")))


@pytest.mark.parametrize("value", [0.0, -1.0, float("nan"), float("inf")])
def test_bad_doses(value):
    with pytest.raises(InputError, match="more than zero"):
        Dose(value, "head")
    with pytest.raises(InputError, match="more than zero"):
        measured(value, 12, "head")
