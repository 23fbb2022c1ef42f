"""The bench: the controller's real firmware on simulated parts."""

from footlight.bench.bench import Bench as Bench
from footlight.bench.events import Event as Event
