"""The tool of the mutants: names that tell them apart, a page that fits, and a bed that notices."""

from pathlib import Path

from tests.soak.mutants import A_SEED, SEEDS, Bed, all_mutants, explained

STOPPED = "table.py module: (LIT, PRESS, when.always, do.stop_lamp, None) -> nothing"


def test_every_mutant_has_its_own_name_and_the_page_names_no_other():
    names = [mutant.name for mutant in all_mutants()]
    assert len(names) > 1_000 and len(set(names)) == len(names)
    assert set(explained()) <= set(names)
    assert len(names) <= SEEDS * A_SEED


def test_a_lamp_that_no_press_stops_is_noticed(tmp_path: Path):
    bed = Bed(tmp_path)
    stopped = next(mutant for mutant in all_mutants() if mutant.name == STOPPED)
    assert bed.killer(stopped) == "case_sequencer.py"
    assert bed.killer(type(stopped)(STOPPED, lambda: (bed.core / "table.py").read_text())) is None
