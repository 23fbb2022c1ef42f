"""What one desk works on."""

import time
from dataclasses import dataclass, field
from pathlib import Path
from threading import Lock


@dataclass(frozen=True)
class Desk:
    """book: the notebook. folder: where sequences lie. port: of the controller, None for the only one.
    one_link: a controller is spoken to by one page at a time."""

    book: Path
    folder: Path
    port: str | None = None
    one_link: Lock = field(default_factory=Lock)

    def now_s(self) -> int:
        """The computer's time [s since 1970]."""
        return int(time.time())
