"""What one desk works on."""

import shutil
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from threading import Lock


class Link:
    """A controller is spoken to by one page at a time; whoever follows a run gives way to whoever acts."""

    def __init__(self) -> None:
        self._lock, self._count = Lock(), Lock()
        self._waiting = 0

    @property
    def is_wanted(self) -> bool:
        """Does somebody who acts wait for it?"""
        return self._waiting > 0

    @contextmanager
    def acting(self) -> Iterator[None]:
        """For a request of a page: whoever follows lets go of it meanwhile."""
        self._wait(1)
        try:
            with self._lock:
                yield
        finally:
            self._wait(-1)

    @contextmanager
    def following(self) -> Iterator[None]:
        """For whoever looks on, and watches `is_wanted`."""
        with self._lock:
            yield

    def _wait(self, by: int) -> None:
        with self._count:
            self._waiting += by


@dataclass(frozen=True)
class Desk:
    """book: the notebook. folder: where sequences lie. port: of the controller, None for the only one.
    scans: where dropped scans lie while it is open."""

    book: Path
    folder: Path
    port: str | None = None
    link: Link = field(default_factory=Link)
    scans: Path = field(default_factory=lambda: Path(tempfile.mkdtemp(prefix="footlight-desk-")))

    def close(self) -> None:
        """Dropped scans go; what was kept of them is in the notebook."""
        shutil.rmtree(self.scans, ignore_errors=True)

    def now_s(self) -> int:
        """The computer's time [s since 1970]."""
        return int(time.time())
