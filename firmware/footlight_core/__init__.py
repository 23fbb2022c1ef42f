"""The pure heart of Footlight: one copy, imported by the controller and by the computer.

Written in the part of Python that MicroPython and CPython share: no typing, dataclasses, enum or
pathlib; order lives in tuples, never in dicts; integers only (floats are single precision on the
chip). Nothing here touches hardware, files or the clock: time is an argument.
"""


def const(value):
    """A number: the chip's compiler writes it where it is used, and a private one needs no name there."""
    return value
