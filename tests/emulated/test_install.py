"""Updating a controller on an emulated RP2040: its prompt, its flash, its reset, the greeting after it."""

import pytest
from tests.emulated import needs_image

from footlight.actions import install_firmware as installing
from footlight.install import image as files
from footlight.install import reach

assert not needs_image.missing()

NOW = 1_772_388_000
BOOT_MS = 3_000


def test_a_running_controller_is_updated_and_greets(monkeypatch: pytest.MonkeyPatch):
    from tests.emulated import image, stage
    from tests.emulated.chip import Chip

    held = files.image(6)
    # It runs, and holds a source from before that would be taken first if its compiled file came.
    chip = Chip(image.file_system(held | {"controller/older.py": b"raise RuntimeError"}))
    stage.foot_off(chip)
    gate = chip.watch(stage.GATE)
    chip.run_for(BOOT_MS)
    monkeypatch.setattr(reach, "clock", chip.cable.clock)
    done = installing.install_firmware("emulated", NOW, open_stream=lambda address: chip.cable)
    assert done.written == ["main.py"] and done.removed == ["controller/older.py"]
    assert done.greeting.agreed and "RP2040" in done.machine and done.compiled
    assert not any(level for _, level in gate)
