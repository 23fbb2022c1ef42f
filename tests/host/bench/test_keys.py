"""Strokes: characters, and reports of press and release as terminals send them that know the keyboard
protocol of progressive enhancement (`CSI code ; modifiers : event u`)."""

import pytest

from footlight.bench.keys import STOP, Stroke, parse


@pytest.mark.parametrize(
    ("text", "strokes"),
    [
        (" tq", [Stroke(" ", "plain"), Stroke("t", "plain"), Stroke("q", "plain")]),
        ("\x1b[32u", [Stroke(" ", "down")]),
        (
            "\x1b[32;1:1u\x1b[32;1:2u\x1b[32;1:3u",
            [Stroke(" ", "down"), Stroke(" ", "repeat"), Stroke(" ", "up")],
        ),
        ("\x1b[61:43;2u", [Stroke("=", "down")]),
        ("\x1b[99;5u", [Stroke(STOP, "down")]),
        ("\x1b[A\x1b[1;5Ct", [Stroke("t", "plain")]),
        ("\x1b", []),
    ],
)
def test_strokes(text: str, strokes: list[Stroke]):
    assert parse(text) == strokes
