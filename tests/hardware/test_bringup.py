"""The ten mistakes that are made most: each planted in the solved board, found by measuring, and named."""

import random

import pytest
from hardware.circuit import build
from hardware.faults import bringup

KNOWN = {mistake.name: bringup.planted(mistake) for mistake in bringup.MISTAKES}
SOUND = bringup.readings(build())
METER_V = 0.1


def measured(said: bringup.Readings, seed: int) -> bringup.Readings:
    """As a meter of one per cent and a hand read it."""
    chance = random.Random(seed)
    return tuple(
        volts * (1 + chance.uniform(-0.01, 0.01)) + chance.uniform(-METER_V, METER_V) for volts in said
    )


@pytest.mark.parametrize("name", KNOWN)
def test_each_mistake_is_found_and_named(name: str) -> None:
    assert bringup.differs(SOUND, KNOWN[name]), "no measurement tells of it"
    for seed in range(20):
        assert bringup.name_of(measured(KNOWN[name], seed), KNOWN)[0] == name


def test_a_sound_board_is_given_no_name() -> None:
    for seed in range(20):
        assert bringup.name_of(measured(SOUND, seed), KNOWN) == []
        assert bringup.differs(measured(SOUND, seed), SOUND) == []


def test_the_command_asks_and_names(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    said = iter(["2,5 volts", *(f"{volts:.2f} V" for volts in KNOWN["R25 missing"])])
    monkeypatch.setattr("builtins.input", lambda asked: next(said))
    assert bringup.main() == 1
    told = capsys.readouterr().out
    assert "is no voltage" in told and "R25 missing: 100 kΩ" in told


def test_there_are_ten() -> None:
    assert len(KNOWN) == len(list(bringup.table())) == 10
