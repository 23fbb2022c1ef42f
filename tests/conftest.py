"""What holds for all tests.

Every bench is judged by the referee, also where the test is about something else. The settings of whoever
runs the tests have no part in them; tests of settings name a file of their own.
"""

import os

import pytest

from footlight.bench import Bench
from footlight.bench.referee import Referee

os.environ["FOOTLIGHT_SETTINGS"] = os.devnull


@pytest.fixture(autouse=True)
def referee(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch):
    """A folder whose firmware is spoilt on purpose has a fixture of this name that does nothing."""
    found: list[Referee] = []
    replay = f"pytest '{request.node.nodeid}'"
    monkeypatch.setattr(Bench, "watchers", [lambda bench: found.append(Referee(bench, replay))])
    yield found
    for one in found:
        one.finish()
