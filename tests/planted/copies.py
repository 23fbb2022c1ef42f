"""Copies of the firmware with one bug each, and what is run against them."""

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

from tests.planted import scenes
from tests.planted.bugs import Bug

ROOT = Path(__file__).parents[2]
FIRMWARE = ROOT / "firmware"
CORE = ROOT / "tests" / "core"
# The cases of the core that are quick on CPython and say most.
ALONE = Path(__file__).parent / "alone.py"
STOPS = Path(__file__).parent / "stops.py"
CASES = (
    "case_golden.py",
    "case_sequencer.py",
    "case_wire.py",
    "case_program.py",
    "case_recovery.py",
    "case_moments.py",
    "case_duty.py",
    "case_dose.py",
    ALONE,
    STOPS,
)
_SCENES_FIRST = ("controller", "boot.py")


def copy_with(bug: Bug | None, folder: Path) -> Path:
    """The firmware in `folder`, with the bug if there is one."""
    copy = folder / "firmware"
    shutil.copytree(FIRMWARE, copy, ignore=shutil.ignore_patterns("__pycache__"))
    if bug:
        path = copy / bug.file
        text = path.read_text()
        assert text.count(bug.old) == 1, f"{bug.what}: stands {text.count(bug.old)} times in {bug.file}"
        changed = text.replace(bug.old, bug.new)
        compile(changed, bug.file, "exec")  # a bug that does not even compile would prove nothing
        path.write_text(changed)
    return copy


def catches(firmware: Path, bug: Bug | None, folder: Path) -> str | None:
    """What was caught first, or None when everything passes."""
    checks = [_scene_check(scene, firmware, folder) for scene in scenes.SCENES]
    if bug and not bug.file.startswith(_SCENES_FIRST):
        checks = [_core_check(firmware), *checks]
    else:
        checks.append(_core_check(firmware))
    return next((caught for caught in (check() for check in checks) if caught), None)


def _scene_check(scene: Callable, firmware: Path, folder: Path) -> Callable[[], str | None]:
    def check() -> str | None:
        try:
            scene(folder / scene.__name__, {"firmware": [firmware]})
        except Exception as error:  # noqa: BLE001 - whatever a bug brings about is what catches it
            return f"{scene.__name__}: {type(error).__name__} {error}"
        return None

    return check


def _core_check(firmware: Path) -> Callable[[], str | None]:
    def check() -> str | None:
        env = os.environ | {"PYTHONPATH": os.pathsep.join([str(CORE), str(firmware)])}
        for name in CASES:
            command = [sys.executable, "-S", name]
            done = subprocess.run(command, cwd=CORE, env=env, capture_output=True, text=True, timeout=60)
            if done.returncode or "NOT " in done.stdout:
                return f"{name}: {(done.stdout + done.stderr)[-200:]}"
        return None

    return check
