"""Every print is its own control: rebate and highlight found, measured, kept; refused where none is plain."""

import json

import numpy as np
import pytest
from darkroom import refused, room, run

from footlight.errors import spoken
from footlight.notebook.book import notebook
from footlight.notebook.sheets import readings
from footlight.strips.errors import ScanError
from footlight.strips.find.tablet import Patch
from footlight.strips.measure import spot
from footlight.strips.scan.scan import make
from footlight.strips.simulated import printed

PATCHES = (Patch(0.06, 6, 6), Patch(1.9, 14, 6))
TYPED = ("--patch", "0.06 at 6, 6 mm", "--patch", "1.9 at 14, 6 mm")


def measured(made, **boxes):
    return spot.measure_spots(made.scan, boxes, PATCHES, False, paper_d=0.08)


@pytest.mark.parametrize("seed", range(4))
def test_found_and_measured(seed):
    made = printed.scanned(200, np.random.default_rng(seed))
    found = measured(made)
    assert found.found == ("rebate", "highlight")
    assert found.d_max == pytest.approx(made.rebate_d, abs=0.02)
    assert found.veil_d == pytest.approx(made.highlight_d - 0.08, abs=0.01)
    assert found.mottle_d is not None and 0.002 < found.mottle_d < 0.008
    # The sky reaches from 22 to 43 mm, the rebate 7 mm in from the rim of the print.
    assert all("found at" in line for line in found.lines()[:2])
    y = found.places["highlight"].origin_mm[1]
    assert y >= 22 and y + found.places["highlight"].width_mm <= 43.5


def test_turned():
    made = printed.scanned(200, np.random.default_rng(1))
    turned = make("t", np.rot90(made.scan.pixels).copy(), 200)
    found = spot.measure_spots(turned, {}, (), False)
    assert found.found == ("rebate", "highlight")
    assert found.veil_d is None and "bare base, paper" in spoken(found.lines()[-1])


def test_nothing_plain_is_refused():
    made = printed.scanned(200, np.random.default_rng(1), sky=False, rebate=False)
    with pytest.raises(ScanError, match="point at"):
        measured(made)


def test_one_of_two_is_said():
    made = printed.scanned(200, np.random.default_rng(1), rebate=False)
    found = measured(made)
    assert found.found == ("highlight",) and found.d_max is None
    assert "rebate" in found.notes[0]


def test_pointed_at():
    made = printed.scanned(200, np.random.default_rng(1))
    found = measured(made, highlight=(30.0, 26.0, 13.0, 13.0))
    assert found.found == ("rebate",) and found.places["highlight"].origin_mm == pytest.approx([30, 26])
    with pytest.raises(ScanError, match="reaches out"):
        measured(made, highlight=(130.0, 26.0, 13.0, 13.0))


def test_kept_with_its_sheet(tmp_path, monkeypatch):
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", "")
    monkeypatch.chdir(tmp_path)
    dark = room(tmp_path)
    dark.lit(dark.planned("second", "6 s", "--setup", "second-strip", "--blade", "30 mm"), 41)
    assert run("read", "sample", "print.tif", "--kind", "print", "--ppi", 200).exception is None
    said = run("read", "print", "print.tif", *TYPED, "--paper", "0.08", "--sheet", 41, "--report", "p.png")
    assert said.exception is None, said.exception
    assert "Kept as reading 1 of sheet 41" in said.output and (tmp_path / "p.png").stat().st_size > 5000
    with notebook(dark.book, writing=False) as book:
        kept = readings.find(book)
        assert len(readings.picture_of(book, kept.id)) > 5000
    told = json.loads(kept.result)
    assert (kept.kind, kept.d_max, kept.mottle_d) == ("print", told["d_max"], told["mottle_d"])
    assert kept.veil_d == pytest.approx(told["places"]["highlight"]["density_d"] - 0.08, abs=1e-4)
    assert "advises no dose" in refused("accept", 1, "--yes")
    assert "print print.tif read, sheet 41: black" in run("undo").output
