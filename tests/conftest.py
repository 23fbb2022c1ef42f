"""What holds for all tests.

Every bench is judged by the referee and by the sheet ledger, also where the test is about something else. The
settings of whoever runs the tests have no part in them; tests of settings name a file of their own. Nor has
their notebook: what a test keeps without naming one goes into a folder of the tests' own.
"""

import os
import signal

import pytest

from footlight.bench import Bench
from footlight.bench.referee import Referee
from footlight.bench.sheet_ledger import SheetLedger

os.environ["FOOTLIGHT_SETTINGS"] = os.devnull
# A shell that starts the tests in the background ignores Ctrl-C, and every process below inherits that.
if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
    signal.signal(signal.SIGINT, signal.default_int_handler)


@pytest.fixture(autouse=True)
def referee(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch):
    """A folder whose firmware is spoilt on purpose has a fixture of this name that does nothing."""
    referees: list[Referee] = []
    ledgers: list[SheetLedger] = []
    replay = f"pytest '{request.node.nodeid}'"
    watchers = [
        lambda bench: referees.append(Referee(bench, replay)),
        lambda bench: ledgers.append(SheetLedger(bench, replay)),
    ]
    monkeypatch.setattr(Bench, "watchers", watchers)
    yield referees
    for judge in (*referees, *ledgers):
        judge.finish()


@pytest.fixture(autouse=True)
def own_data(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the platform's folder for data follows the XDG rules; elsewhere tests must name a notebook."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path_factory.getbasetemp() / "data"))
