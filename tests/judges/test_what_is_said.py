"""The ledger at the real firmware: cuts at rest, while held, within a light, by a watchdog; then the journal
comes home, and what `footlight sheet` says of the light must hold what the lamp gave."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.controller.stage import BATH, LIGHT, armed, program
from tests.host import typed

from footlight.bench import Bench
from footlight.bench.sheet_ledger import SheetLedger
from footlight.cli.main import group
from footlight.link import transport

PROGRAM = program(LIGHT | {"time_ms": 2400}, BATH, LIGHT | {"time_ms": 1500, "show": "AGAIN"})
Deed = Callable[[Bench], None]


def cut(bench: Bench) -> None:
    bench.run_for(3_000)
    bench.cut_power()
    bench.run_for(2_000)
    bench.switch_on()
    bench.run_for(8_000)


def go_on(bench: Bench) -> None:
    """Long and long again: back at the step, and the first that is offered is taken; then a press."""
    for _ in range(2):
        bench.hold()
        bench.run_for(1_500)
    bench.tap()
    bench.run_for(4_000)


def at_rest(bench: Bench) -> None:
    bench.tap()
    bench.run_for(4_000)
    cut(bench)
    go_on(bench)


def while_held(bench: Bench) -> None:
    bench.tap()
    bench.run_for(700)
    bench.tap()
    cut(bench)
    go_on(bench)


def in_the_light(bench: Bench) -> None:
    bench.tap()
    bench.run_for(700)
    bench.cut_power()
    bench.run_for(500)
    bench.switch_on()
    bench.run_for(8_000)
    go_on(bench)


def twice(bench: Bench) -> None:
    in_the_light(bench)
    cut(bench)
    go_on(bench)


def by_a_watchdog(bench: Bench) -> None:
    bench.tap()
    bench.run_for(700)
    bench.hang()
    bench.run_for(12_000)
    go_on(bench)


def after_abandoning(bench: Bench) -> None:
    bench.tap()
    bench.run_for(700)
    bench.tap()
    bench.run_for(1_500)
    bench.hold()
    cut(bench)
    go_on(bench)


def at_home(bench: Bench, book: Path, monkeypatch: pytest.MonkeyPatch) -> dict:
    """The journal comes home -> what is said of sheet 1."""
    monkeypatch.setattr(transport, "open_stream", lambda address: bench.stream())
    typed.asked(group, f"collect --port bench --notebook {book}")
    return json.loads(typed.asked(group, f"sheet 1 --json --notebook {book}"))


@pytest.mark.parametrize("deed", [at_rest, while_held, in_the_light, twice, by_a_watchdog, after_abandoning])
def test_what_is_told_holds_what_was_had(deed: Deed, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    with armed(tmp_path / "bench", PROGRAM) as bench:
        ledger = SheetLedger(bench, deed.__name__)
        bench.run_for(900)
        deed(bench)
        story = at_home(bench, tmp_path / "notebook.sqlite", monkeypatch)
        ledger.hold(story)
        assert any(portion.all_us[1] for portion in ledger.lights.portions.values())
        ledger.finish()
