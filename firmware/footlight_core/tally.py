"""How much light one sheet has had in each step of a run: at least and at most.

The two differ where the power went while a light was ready or lit, for then nobody knows.
"""

from .program import MAX_STEPS


class Tally:
    """Steps count from 1, as in the records; all of it is made at once, so that a light allocates nothing."""

    def __init__(self):
        self._least_ms = [0] * (MAX_STEPS + 2)  # a run may stand one past its last step
        self._most_ms = [0] * (MAX_STEPS + 2)

    def clear(self):
        """Another sheet."""
        for step in range(len(self._least_ms)):
            self.put(step, 0, 0)

    def put(self, step, least_ms, most_ms):
        """Something else knows better."""
        self._least_ms[step] = least_ms
        self._most_ms[step] = most_ms

    def add(self, step, least_ms, most_ms):
        """So much more."""
        self._least_ms[step] += least_ms
        self._most_ms[step] += most_ms

    def least_ms(self, step):
        """Light that the sheet has surely had [ms]."""
        return self._least_ms[step]

    def most_ms(self, step):
        """Light that the sheet may have had [ms]."""
        return self._most_ms[step]
