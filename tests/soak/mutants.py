"""The campaign of mutants: each small change to the sequencer must be noticed by a case of the core.

Those that are not, because they change nothing that anyone could see, stand in docs/mutants.md with the
reason; a survivor that is not on that page is a breach. Copies live outside the tree.
"""

import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path

from tests.soak.bits import Outcome
from tests.soak.mutate import Mutant, mutants

ROOT = Path(__file__).parents[2]
CORE = ROOT / "firmware" / "footlight_core"
CASES = ROOT / "tests" / "core"
PAGE = ROOT / "docs" / "mutants.md"
FILES = ("sequencer.py", "table.py", "entries.py", "actions.py", "guards.py", "run.py", "duty.py")
# The cases that know of these files, those that notice most first.
CHECKS = (
    "case_sequencer.py",
    "case_rules.py",
    "case_moments.py",
    "case_refusals.py",
    "case_entering.py",
    "case_run.py",
    "case_golden.py",
    "case_touch.py",
    "case_duty.py",
)
A_SEED = 40
SEEDS = 44
_LIMIT_S = 10
# One process for all cases of a mutant; what it says last is the case that did not end well.
_RUN = """
import runpy, sys
for case in sys.argv[1:]:
    print("@" + case)
    try:
        runpy.run_path(case, run_name="__main__")
    except SystemExit as end:
        if end.code:
            raise
"""
_EXPLAINED = re.compile(r"^\| `(.+ -> .+)` \| (.+) \|$", re.MULTILINE)


def all_mutants() -> list[Mutant]:
    """Every mutant of every file, always in the same order."""
    return [mutant for file in FILES for mutant in mutants(file, (CORE / file).read_text(encoding="utf-8"))]


def explained() -> dict[str, str]:
    """The survivors that the page explains: name -> reason."""
    text = PAGE.read_text(encoding="utf-8") if PAGE.exists() else ""
    return {name.replace("\\|", "|"): why for name, why in _EXPLAINED.findall(text)}


class Bed:
    """A copy of the core in which one module after the other is changed."""

    def __init__(self, folder: Path) -> None:
        self.core = folder / "footlight_core"
        shutil.copytree(CORE, self.core, ignore=shutil.ignore_patterns("__pycache__"))
        subprocess.run([sys.executable, "-m", "compileall", "-q", str(self.core)], check=True)
        self._env = os.environ | {"PYTHONPATH": os.pathsep.join([str(CASES), str(folder)])}

    def killer(self, mutant: Mutant) -> str | None:
        """The first case that notices, or None."""
        path = self.core / mutant.name.split(" ")[0]
        whole = path.read_text(encoding="utf-8")
        path.write_text(mutant.source(), encoding="utf-8")
        for stale in (self.core / "__pycache__").glob(path.stem + ".*"):
            stale.unlink()
        try:
            return self._run()
        finally:
            path.write_text(whole, encoding="utf-8")

    def _run(self) -> str | None:
        # Without writing byte code: two mutants of one second and one length would be taken for each other.
        command = [sys.executable, "-S", "-B", "-c", _RUN, *CHECKS]
        try:
            done = subprocess.run(
                command, cwd=CASES, env=self._env, capture_output=True, text=True, timeout=_LIMIT_S
            )
        except subprocess.TimeoutExpired:
            return "it does not end"
        if done.returncode == 0:
            return None
        return done.stdout.rpartition("@")[2].split("\n")[0] or done.stderr[-200:]


def judged(chosen: list[Mutant]) -> Outcome:
    """These mutants, each against every case until one notices."""
    reasons, breaches, counts = explained(), [], Counter[str]()
    with tempfile.TemporaryDirectory() as folder:
        bed = Bed(Path(folder))
        for mutant in chosen:
            if bed.killer(mutant):
                counts["killed"] += 1
                if mutant.name in reasons:
                    breaches.append(f"explained, but noticed: {mutant.name}")
            elif mutant.name in reasons:
                counts["explained"] += 1
            else:
                breaches.append(f"survived: {mutant.name}")
    return len(chosen), breaches, counts


def campaign(seed: int) -> Outcome:
    """Forty mutants; a seed beyond the last one finds nothing to do."""
    return judged(all_mutants()[seed * A_SEED : (seed + 1) * A_SEED])
