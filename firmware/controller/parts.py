"""The parts that the app works with, built by `board` or by a test."""

from collections import namedtuple

# `legs` tries the coil's legs. Called: `sense`, the light sensor's reading, near 0 without one; `white`,
# 1 permits white light; `identity`: a text, this controller's own.
Parts = namedtuple(
    "Parts", "clock pedal lamp display sound store journal port guard sense legs white identity"
)
