"""Whole numbers as they are typed: of sheets, acts and pictures, and how many of something."""

import click

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
