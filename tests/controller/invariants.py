"""What must hold at every event of the bench: the project's one referee, collecting instead of stopping."""

from footlight.bench import Bench
from footlight.bench.referee import Referee


class Invariants(Referee):
    """Listens to a bench. `broken` holds one line for each breach."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench, stops=False)
