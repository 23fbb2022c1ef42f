"""Makes every page that is made from the code: `python docs/make_all.py`.

One that cannot be made here (pictures of pages need a browser) is named; the others are made all the same.
"""

import runpy
import sys
from pathlib import Path


def make_all() -> list[str]:
    """Every maker beside this one -> those that failed, each with its reason."""
    failed = []
    for maker in sorted(Path(__file__).parent.glob("make_*.py")):
        if maker.name == Path(__file__).name:
            continue
        try:
            runpy.run_path(str(maker), run_name="__main__")
        except Exception as error:  # noqa: BLE001 - told below, and the exit code says it too
            failed.append(f"{maker.name}: {error}")
    return failed


if __name__ == "__main__":
    if trouble := make_all():
        sys.exit("\n".join(trouble))
