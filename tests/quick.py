"""`make quick`: lint, and the tests of what was changed, chosen by folder; under a minute on two cores.

    python -m tests.quick [--print] [FILE...]

FILE: what to take as changed; without any, what git says differs from the last commit (where nothing does,
what that commit changed). What a change may break far away is left to `make test`.
"""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]
# Always: the walls, the words that must be there, one help of every command.
ALWAYS = ("tests/test_arrows.py", "tests/host/test_errors.py")
# The longest beginning of a path that stands here decides. Tests that were changed run themselves.
TESTS: dict[str, tuple[str, ...]] = {
    "firmware/footlight_core/": ("tests/core", "tests/golden"),
    "firmware/": ("tests/controller/in_process", "tests/controller/test_run.py"),
    "host/footlight/actions/": ("tests/host/actions", "tests/host/repeating"),
    "host/footlight/api.py": ("tests/documents/test_api.py",),
    "host/footlight/__init__.py": ("tests/documents/test_api.py",),
    "host/footlight/baths/": ("tests/host/baths",),
    "host/footlight/bench/": ("tests/host/bench",),
    "host/footlight/camera/": ("tests/host/camera",),
    "host/footlight/chemistry/": ("tests/host/chemistry",),
    "host/footlight/tones/": ("tests/host/tones", "tests/host/cli/test_tones.py"),
    "host/footlight/cli/": ("tests/host/cli", "tests/documents/test_mentions.py"),
    "host/footlight/examples/": ("tests/host/sequence",),
    "host/footlight/desk/": ("tests/host/desk", "tests/browser/test_walks.py"),
    "host/footlight/install/": ("tests/host/install",),
    "host/footlight/light/": ("tests/host/light",),
    "host/footlight/link/": ("tests/host/link",),
    "host/footlight/notebook/": ("tests/host/notebook",),
    "host/footlight/quantities/": ("tests/host/test_quantities.py", "tests/host/test_quantities_mixing.py"),
    "host/footlight/report/": ("tests/host/report", "tests/host/pages"),
    "host/footlight/sequence/": ("tests/host/sequence",),
    "host/footlight/settings/": ("tests/host/test_settings.py",),
    "host/footlight/strips/": ("tests/host/strips/test_decision.py", "tests/host/strips/test_density.py"),
    "host/footlight/views/": ("tests/host/views", "tests/host/cli/test_sheets.py"),
    "host/footlight/written/": ("tests/host/light", "tests/host/chemistry"),
    "host/": ("tests/host/test_whole_file.py", "tests/host/test_messages.py"),
    "hardware/": ("tests/hardware/test_pages.py", "tests/hardware/test_pins.py"),
    "docs/": ("tests/documents/test_links.py", "tests/documents/test_mentions.py"),
}


def changed() -> list[str]:
    """Paths that differ from the last commit; where none does, those that it changed."""
    return _git("status", "--porcelain", "--no-renames") or _git("show", "--name-status", "--format=", "HEAD")


def _git(*words: str) -> list[str]:
    told = subprocess.run(["git", *words], cwd=ROOT, capture_output=True, text=True, check=True).stdout
    return [line.split(maxsplit=1)[1].strip('"') for line in told.splitlines() if line.strip()]


def chosen_for(paths: list[str]) -> list[str]:
    """The tests that a change of these paths needs, each once, those that there are."""
    chosen = [*ALWAYS]
    for path in paths:
        if path.startswith("tests/") and Path(path).name.startswith("test_") and path.endswith(".py"):
            chosen.append(path)
            continue
        beginnings = [beginning for beginning in TESTS if path.startswith(beginning)]
        chosen += TESTS[max(beginnings, key=len)] if beginnings else ()
    return [test for test in dict.fromkeys(chosen) if (ROOT / test).exists()]


def main(words: list[str]) -> int:
    """Choose, say what was chosen, run it."""
    paths = [word for word in words if word != "--print"] or changed()
    tests = chosen_for(paths)
    print("quick:", *tests, flush=True)
    if "--print" in words:
        return 0
    return subprocess.run(
        [sys.executable, "-m", "pytest", "-n", "2", "-x", *tests], cwd=ROOT, check=False
    ).returncode


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
