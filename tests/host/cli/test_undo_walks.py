"""Whatever is entered, in whatever order: each undo shows exactly what was shown before, down to nothing, and
each reinstating what was shown after it."""

import random
from pathlib import Path

import pytest
from tests.host.cli.day import Day, day, dry

__all__ = ["day"]

ENTERED = (
    "write 41 --verdict good",
    "write 42 --verdict lost --defect drop",
    "write 41 --defect mottle hands",
    "write 42 --paper A",
    "write 41 --paper B --verdict usable",
    "paper found A --speed 4 hands",
    "paper use B",
    "paper spoiled B 1",
    "paper assign B 41-43",
    "expose 41 --planned '4 s' --subject hands",
    "expose 41 --given '5 s'",
    "expose 42 --again --holder 3b",
    "expose 60 --planned '6 s' --subject chairs",
    "lens add wide --focal '90 mm' --note hands",
    "lens add wide --focal '90 mm' --true 'f/22 = 21'",
    "session name evening hands",
    "attach 41 print.png",
)
LOOKS = (
    "sheets",
    "sheet 41",
    "sheet 42",
    "paper list",
    "paper show A",
    "lens list",
    "session list",
    "search hands",
    "search chairs",
    "sheets --verdict usable",
    "sheets --paper B",
    "sheets --defect mottle",
)


def seen(day: Day) -> dict[str, object]:
    """Everything that a printer may look at."""
    return {look: day.json(look) for look in LOOKS}


@pytest.mark.parametrize("seed", [1, 2])
def test_undo_leads_back_step_by_step(day: Day, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, seed: int):
    pytest.importorskip("PIL.Image").new("L", (9, 9)).save(tmp_path / "print.png")
    monkeypatch.chdir(tmp_path)
    day.home(*dry(42, 44, run=2))
    for name in "AB":
        day.asked(f"paper add {name} baryta --size 8x10 --sheets 20")
    day.asked("expose 43 --planned '3 s' --subject chairs")
    entered = random.Random(seed).sample(ENTERED, 10)
    shown = [seen(day)]
    for line in entered:
        day.asked(line)
        shown.append(seen(day))
    for line, expected in zip(reversed(entered), reversed(shown[:-1]), strict=True):
        day.asked("undo")
        assert seen(day) == expected, line
    for line, expected in zip(entered, shown[1:], strict=True):
        day.asked("reinstate")
        assert seen(day) == expected, line
    assert "nothing to reinstate" in day.refused("reinstate")
