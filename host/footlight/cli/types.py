"""What is typed, read once: whole numbers, quantities with their units, moments."""

import importlib
import time
from typing import Any

import click

from footlight.errors import field

# More than any of them will ever be, and few enough digits for every place where they go.
MOST = 9_999_999


class WholeNumber(click.ParamType):
    """From `least` to `most`."""

    name = "number"

    def __init__(self, least: int = 1, most: int = MOST) -> None:
        self._least, self._most = least, most

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> int:
        text = f"{value}".strip()
        if not text.isdecimal() or not self._least <= int(text) <= self._most:
            self.fail(f"'{value}' is no whole number from {self._least} to {self._most}.", param, ctx)
        return int(text)


FROM_1 = WholeNumber()
FROM_0 = WholeNumber(least=0)


class Quantity(click.ParamType):
    """A written quantity, read once, with the parameter as the field of its errors.

    reader: the name of a function (text, what) in `module`; limits: what it takes beside.
    """

    name = "quantity"

    def __init__(self, reader: str, module: str = "footlight.quantities", **limits: float) -> None:
        self._reader, self._module, self._limits = reader, module, limits

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        if not isinstance(value, str):
            return value
        # Only here, so that help does not wait for it.
        read = getattr(importlib.import_module(self._module), self._reader)
        return read(value, field(_name(param)), **self._limits)


class Moment(click.ParamType):
    """A written moment -> seconds since 1970. end: of a date alone its last second, not its first."""

    name = "moment"

    def __init__(self, end: bool = False) -> None:
        self._end = end

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> int:
        if not isinstance(value, str):
            return value
        from footlight.quantities.moment import parse_moment

        return parse_moment(value, field(_name(param)), int(time.time()), end=self._end)


def _name(param: click.Parameter | None) -> str:
    return (param.name if param else None) or ""
