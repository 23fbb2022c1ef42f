"""From a controller in use to its prompt and back. A run under way is never broken off."""

import time
from collections.abc import Callable

from footlight.errors import act, field
from footlight.install.errors import BenchError, BusyError, InstallError, PromptError
from footlight.install.prompt import Prompt
from footlight.link.channel import Channel, Stream
from footlight.link.errors import LinkError, NotAControllerError, RefusedError, SilentError
from footlight.meanings import REFUSALS

Open = Callable[[str], Stream]

# Seconds that only go forward; a board in simulated time has its own.
clock: Callable[[], float] = time.monotonic

_PATIENCE_S, _TRIES = 0.7, 2
_LEAVE_S = 3.0
_START_S = 20.0
_PAUSE_S = 0.3
_SILENCE_S = 0.6

# The reset's reason goes where the next start looks for it; a board without our guard just starts anew.
# It waits, so that the computer has given the port back before the board goes away.
RESTART = """
import machine, time
try:
    from controller import guard
    guard.Guard().note(guard.ASKED, 0)
except ImportError:
    pass
time.sleep_ms(200)
machine.reset()
"""


def at_prompt(stream: Stream) -> Prompt:
    """The prompt of the board at the other end, whatever runs there.

    Raises BusyError in a run, BenchError at a bench.
    """
    is_controller = _leave_app(stream)
    prompt = Prompt(stream)
    try:
        prompt.enter()
    except PromptError as error:
        if is_controller:
            raise BusyError(f"{stream.name}: {REFUSALS['busy']}, then repeat the command") from error
        raise
    return prompt


def _leave_app(stream: Stream) -> bool:
    """Ask the controller's program to end -> is there one?"""
    channel = Channel(stream, patience_s=_PATIENCE_S, tries=_TRIES, clock=clock)
    try:
        greeting = channel.greet(any_make=True)
        if greeting.is_bench:
            raise BenchError(
                f"{stream.name}: this is the bench, not a board; nothing is installed or brought up there. "
                f"Name the board's own port with {field('port')}; {act('find')} lists what is there"
            )
        # One of other make takes no such message; while it is idle, Ctrl-C after a silence will do.
        if greeting.agreed:
            channel.ask("maintain")
            _await_prompt(stream)
        else:
            time.sleep(_SILENCE_S)
    except RefusedError as refused:
        if refused.name == "busy":
            raise BusyError(f"{stream.name}: {refused}; then repeat the command") from refused
        raise
    except (SilentError, NotAControllerError):
        return False
    return True


def _await_prompt(stream: Stream) -> None:
    # A Ctrl-C before the program has put its watchdog to rest would leave that running.
    # A return is nothing to the program, and brings the prompt's marks again if they have gone by.
    heard, deadline_s = b"", clock() + _LEAVE_S
    while b">>> " not in heard and clock() < deadline_s:
        stream.write(b"\r")
        heard += stream.read(64)


def restart(prompt: Prompt, stream: Stream) -> None:
    """Start the board anew; the stream is closed."""
    prompt.begin(RESTART)
    stream.close()


def greeted(address: str, open_stream: Open, unix_s: int = 0, *, limit_s: float = _START_S) -> Channel:
    """The controller at that port, once it has started. `unix_s`: for its journal [s since 1970]."""
    deadline_s = clock() + limit_s
    while True:
        try:
            return _greet_once(address, open_stream, unix_s)
        except LinkError as error:
            if clock() > deadline_s:
                raise InstallError(
                    f"{address}: the files are on the board, but its program does not answer "
                    f"({str(error).removeprefix(address + ': ')}); switch it off and on, foot off the pedal, "
                    f"then try {act('find')}"
                ) from error
        time.sleep(_PAUSE_S)


def _greet_once(address: str, open_stream: Open, unix_s: int) -> Channel:
    stream = open_stream(address)
    try:
        Channel(stream, patience_s=_PATIENCE_S, tries=_TRIES, clock=clock).greet()
        channel = Channel(stream, clock=clock)
        channel.greet(unix_s)
    except LinkError:
        stream.close()
        raise
    return channel
