"""Rule I18: a sheet's number is given once, whatever is lost of ledger or journal."""

from collections.abc import Callable

Breach = Callable[[str, str], None]


class SheetNumbers:
    """The numbers that were given. A number may come again only for a flashed sheet that waits, or for the
    last one where a person picked it by its number."""

    def __init__(self, breach: Breach) -> None:
        self._breach = breach
        self._given: set[int] = set()
        self._waiting: set[int] = set()
        self._last = 0
        self.current = 0
        self._is_batch = False

    def forget(self) -> None:
        """The whole memory was formatted, and the display said so: numbers begin with 1."""
        self.__init__(self._breach)

    def show_first(self, number: int) -> None:
        """The first number that a pick offers: of a sheet that waits, or a new one."""
        if number in self._given and number not in self._waiting:
            self._breach("I18", f"number {number} is offered as a new one, and a sheet has it already")

    def arm(self, number: int, sheets: int, picked: int | None) -> None:
        """A run begins with this sheet; `picked`: the number that the display offered to the foot."""
        was_picked = picked == number and number in (self._waiting | {self._last})
        if number in self._given and not was_picked and number not in self._waiting:
            self._breach("I18", f"number {number} is given a second time")
        self._is_batch = sheets > 1
        self._take(number)

    def name(self, number: int) -> None:
        """A record names this sheet: in a batch the next one takes a new number."""
        if number == self.current:
            return
        if number in self._given and number not in self._waiting:
            self._breach("I18", f"number {number} is given a second time, in a batch")
        self._take(number)

    def pencil(self, number: int) -> None:
        """The display says which number to pencil on the sheet."""
        if self.current and number != self.current:
            self._breach("I18", f"the display says number {number}, the journal {self.current}")

    def cut(self, number: int) -> None:
        """After a start the journal names the sheet of the broken run."""
        self.current = self._last = number
        self._given.add(number)

    def _take(self, number: int) -> None:
        self._given.add(number)
        (self._waiting.add if self._is_batch else self._waiting.discard)(number)
        self.current = self._last = number
