"""Runs read out of records: what was done, how, and how much light a sheet had."""

import pytest
from tests.host.notebook.journals import PRINT, SHORT_SHA, arm, write

from footlight.notebook.journal.reading import Exposure, LightDone, StepDone, read_run


def reading_of(*rows: tuple[object, ...]):
    return read_run(line.record for line in write(*rows) if line.record)


def intent(step: int, light_ms: int, dead_ms: int = 50) -> tuple[object, ...]:
    return (0, "intent", 1, step, 7, light_ms, light_ms + dead_ms, SHORT_SHA)


def gave(step: int, gate_ms: int, light_ms: int, left_ms: int, how: str) -> tuple[object, ...]:
    return (0, "gave", 1, step, 7, gate_ms, light_ms, left_ms, how)


def test_a_whole_print():
    reading = reading_of(*PRINT[2:])
    assert reading.ended == "whole" and reading.sheets() == [41]
    assert reading.steps == [StepDone(1, 41, 2, 123_500, "pedal"), StepDone(3, 41, 8, 45_000, "pedal")]
    (light,) = reading.lights
    assert (light.planned_ms, light.gate_ms, light.least_ms, light.most_ms) == (8_050, 8_150, 8_050, 8_050)
    assert light.exposures == [Exposure(5, 3_050, 3_000, "held"), Exposure(7, 5_100, 5_050, "whole")]


CUT = (0, "cut", 1, 2, 7, 2000, 2100)


@pytest.mark.parametrize(
    ("rows", "least_ms", "most_ms", "how"),
    [
        ([intent(2, 8000), gave(2, 8050, 8000, 0, "whole")], 8000, 8000, "whole"),
        (
            [intent(2, 8000), gave(2, 3050, 3000, 5000, "held"), gave(2, 0, 0, 5000, "abandoned")],
            3000,
            3000,
            "abandoned",
        ),
        # The controller never came back: anything up to the whole.
        ([intent(2, 8000)], 0, 8000, None),
        # The rest is offered, and nobody knows yet how that will end.
        ([intent(2, 8000), gave(2, 3050, 3000, 5000, "held"), intent(2, 5000)], 3000, 8000, None),
        ([intent(2, 8000), CUT, intent(2, 6000)], 2000, 8100, None),
        # A power cut, and what the controller found out afterwards.
        ([intent(2, 8000), (0, "cut", 1, 2, 7, 0, 8000)], 0, 8000, "broken"),
        ([intent(2, 8000), CUT], 2000, 2100, "broken"),
        # After the cut the rest was given by hand.
        (
            [
                intent(2, 8000),
                (0, "cut", 1, 2, 7, 2000, 2100),
                intent(2, 6000),
                gave(2, 6050, 6000, 0, "whole"),
            ],
            8000,
            8100,
            "whole",
        ),
        # Skipped: nothing given, the intent answered.
        ([intent(2, 8000), gave(2, 0, 0, 0, "skipped")], 0, 0, "skipped"),
        # The record of the intent is damaged.
        ([gave(2, 8050, 8000, 0, "whole")], 8000, 8000, "whole"),
    ],
)
def test_light_given(rows: list[tuple[object, ...]], least_ms: int, most_ms: int, how: str | None):
    (light,) = reading_of(arm(0, 1, 7), *rows).lights
    assert (light.least_ms, light.most_ms) == (least_ms, most_ms)
    assert light.how == how


def test_the_same_light_again_is_another_light():
    lights = reading_of(
        arm(0, 1, 7),
        intent(2, 8000),
        gave(2, 8050, 8000, 0, "whole"),
        intent(2, 8000),
        gave(2, 8050, 8000, 0, "whole"),
    ).lights
    assert [light.least_ms for light in lights] == [8000, 8000]


def test_a_bath_that_was_cut_off_and_begun_again():
    steps = reading_of(
        arm(0, 1, 7),
        (0, "begin", 1, 1, 7),
        (0, "cut", 1, 1, 7, 0, 0),
        (9, "begin", 1, 1, 7),
        (99, "step", 1, 1, 7, 9, 90, "time"),
    ).steps
    assert [(step.real_ms, step.how) for step in steps] == [(None, "broken"), (90, "time")]


def test_skipped_before_it_began():
    (step,) = reading_of(arm(0, 1, 7), (50, "step", 1, 1, 7, 50, 0, "skipped")).steps
    assert (step.real_ms, step.how) == (0, "skipped")


def test_a_batch_has_all_its_sheets():
    rows = [arm(0, 1, 40, "FLASH", 3)]
    for sheet in (40, 41, 42):
        rows += [
            (0, "intent", 1, 1, sheet, 500, 550, SHORT_SHA),
            (0, "gave", 1, 1, sheet, 550, 500, 0, "whole"),
        ]
    reading = reading_of(*rows, (0, "end", 1, 42, "whole"))
    assert reading.sheets() == [40, 41, 42]
    assert [light.sheet for light in reading.lights] == [40, 41, 42]


def test_a_run_whose_beginning_is_damaged():
    reading = reading_of(
        (0, "begin", 1, 3, 7), (0, "step", 1, 3, 7, 0, 60_000, "time"), (0, "end", 1, 7, "whole")
    )
    assert reading.armed is None and reading.sheets() == [7]


def test_a_light_is_not_mixed_with_the_next_sheet():
    rows = [(0, "intent", 1, 1, sheet, 500, 550, SHORT_SHA) for sheet in (1, 2)]
    lights = reading_of(arm(0, 1, 1, "FLASH", 2), *rows).lights
    assert lights == [
        LightDone(1, 1, 2, 500, most_ms=500, open_ms=500),
        LightDone(1, 2, 3, 500, most_ms=500, open_ms=500),
    ]
