"""Writes docs/two-lights.png: one light in a sagging mains, counted and by seconds, on the bench."""

import tempfile
from pathlib import Path

from footlight.actions.give_light_twice import give_light_twice

PICTURE = Path(__file__).parent / "two-lights.png"

if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as place:
        give_light_twice(Path(place), PICTURE)
