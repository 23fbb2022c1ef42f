"""Short versions of the campaigns: other seeds are for `make soak`."""

import pytest
from tests.soak.__main__ import one

SHORT = [
    *[("frames-to-controller", seed) for seed in range(50)],
    *[("frames-to-host", seed) for seed in range(50)],
    *[("pedals", seed) for seed in range(50)],
    *[("programs", seed) for seed in range(20)],
    *[("uploads", seed) for seed in range(3)],
    ("notebook", 0),
    *[("rest", seed) for seed in range(3)],
    *[("faults", seed) for seed in range(60)],
]


@pytest.mark.parametrize(("name", "seed"), SHORT, ids=lambda value: str(value))
def test_a_short_campaign(name: str, seed: int):
    row = one((name, seed))
    assert row["trials"] and row["breaches"] == []
