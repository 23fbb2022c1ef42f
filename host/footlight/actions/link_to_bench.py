"""A link to the controller on the bench, in the bench's own time."""

from footlight.bench import Bench
from footlight.link.channel import Channel


def link_to_bench(bench: Bench, now_s: int) -> Channel:
    """A greeted link to a bench that is switched on. now_s: the date for its journal [s since 1970].

    Raises LinkError where nothing answers.
    """
    stream = bench.stream()
    channel = Channel(stream, clock=stream.clock)
    channel.greet(unix_s=now_s)
    return channel
