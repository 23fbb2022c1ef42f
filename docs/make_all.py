"""Makes every page that is made from the code: `python docs/make_all.py`."""

import runpy
from pathlib import Path

if __name__ == "__main__":
    for maker in sorted(Path(__file__).parent.glob("make_*.py")):
        if maker != Path(__file__):
            runpy.run_path(str(maker), run_name="__main__")
