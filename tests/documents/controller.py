"""The bench in the controller's place: whatever port a command opens, the firmware answers there.

It stands behind pyserial's own door, so all of the tool runs as with a cable; its time is the bench's, and a
run of a quarter of an hour takes a moment. Its flash lies where `footlight bench` keeps it.
"""

import re
from pathlib import Path
from types import SimpleNamespace

from footlight import sequence
from footlight.bench import Bench
from footlight.bench.feet import Feet, Slip
from footlight.bench.glyphs import read_text
from footlight.bench.referee import Referee
from footlight.quantities import parse_duration_ms

_SPOKEN = re.compile(
    r"carry out (?P<file>\S+)(?P<armed>, armed)?(?: as (?P<sheet>NR \d+))?(?P<slips>(?:; .+)*)"
)
_SLIP = re.compile(r"step (\d+) (late|stopped|cut) (.+)")
_SLIPS = {"late": "late_ms", "stopped": "stop_ms", "cut": "cut_ms"}
_MOST_PRESSES = 24
_BOOT_MS = 3000


class StandIn:
    """A controller that is switched on when somebody first looks for it."""

    def __init__(self, folder: Path, interpreter: str | None = None) -> None:
        self.folder = folder
        self.is_on_usb = True  # a bench that a page has begun is not
        self._interpreter = interpreter
        self._bench: Bench | None = None
        self._referee: Referee | None = None
        self._passed_s = 0.0

    @property
    def bench(self) -> Bench:
        """The bench, switched on."""
        if self._bench is None:
            self._bench = Bench(self.folder, self._interpreter)
            self._referee = Referee(self._bench, replay="the page's own commands and feet")
            self._bench.switch_on()
            self._bench.run_for(_BOOT_MS)
        return self._bench

    def passed_s(self) -> float:
        """What has passed on the bench so far [s]."""
        return self._passed_s + (self._bench.now_us / 1e6 if self._bench else 0.0)

    def put_away(self) -> None:
        """Off; its flash stays. Raises what the referee has to say of the run."""
        self._passed_s = self.passed_s()
        bench, referee = self._bench, self._referee
        self._bench = self._referee = None
        if bench and referee:
            with bench:
                referee.finish()

    def open_port(self, address: str, **options: object) -> "Port":
        """What pyserial would open."""
        return Port(self.bench, address)

    def list_ports(self) -> list[SimpleNamespace]:
        """What pyserial would list: one port, whose USB ids are those of a controller's board."""
        if not self.is_on_usb:
            return []
        return [SimpleNamespace(device="/dev/ttyACM0", description="a controller", vid=0x2E8A, pid=0x0005)]

    def carry_out(self, spoken: str) -> None:
        """`carry out FILE[, armed][ as NR 3][; step 2 late 12 s][; step 7 stopped 3 s]`, by scripted feet.

        armed: the page's own sentences have armed it, and lead on when it is done (`pedal`).
        """
        said = _SPOKEN.fullmatch(spoken)
        if said is None:
            raise ValueError(f"feet: '{spoken}' is not understood")
        program = sequence.compile(sequence.load(Path(said["file"]))).program
        feet = Feet(self.bench)
        if said["armed"]:
            feet.carry_out(program, _slips(said["slips"]))
            return
        self._turn_to(program["title"])
        if said["sheet"]:
            self.bench.hold()
            self._turn_to(said["sheet"])
            self.bench.hold()
            self.bench.run_for(1000)
        else:
            feet.arm(0, is_batch=program["sheets"] > 1)
        feet.carry_out(program, _slips(said["slips"]))
        feet.put_away()

    def _turn_to(self, word: str) -> None:
        """Short presses until the display shows the word."""
        self.bench.run_for(1000)
        for _ in range(_MOST_PRESSES):
            if read_text(self.bench.screen_rows()) == word:
                return
            self.bench.tap()
            self.bench.run_for(1000)
        raise ValueError(f"feet: the display never shows '{word}'")


def _slips(spoken: str) -> dict[int, Slip]:
    slips = {}
    for one in filter(None, spoken.split("; ")):
        said = _SLIP.fullmatch(one)
        if said is None:
            raise ValueError(f"feet: '{one}' is not understood")
        slips[int(said[1])] = Slip(**{_SLIPS[said[2]]: parse_duration_ms(said[3], "feet")})
    return slips


class Port:
    """As much of pyserial's port as the tool uses, at the end of the bench's cable."""

    def __init__(self, bench: Bench, address: str) -> None:
        self.name = address
        self._stream = bench.stream()
        self._waiting = b""

    def open(self) -> None:
        """It is open."""

    def close(self) -> None:
        """Nothing to give back."""

    def write(self, data: bytes) -> int:
        """All of it, at once."""
        self._stream.write(data)
        return len(data)

    def read(self, size: int) -> bytes:
        """At most `size` bytes; a moment of the bench's time passes for the first."""
        if size and not self._waiting:
            self._waiting = self._stream.read(4096)
        data, self._waiting = self._waiting[:size], self._waiting[size:]
        return data

    @property
    def in_waiting(self) -> int:
        """How many have come."""
        return len(self._waiting)
