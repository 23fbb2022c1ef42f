"""Reading scans, as ratios against reading the same file into an array; memory by process."""

import math
import subprocess
import sys
import tempfile
from pathlib import Path

from tests.bench._timing import ratio

_STOPS = (-math.inf, -2.0, -1.0, 0.0, 1.0, 2.0, 3.0, 5.0)
_MOST_GIB = 1.5
_LARGE = (12000, 9600)
_READ = """
import resource, sys
from pathlib import Path
from footlight.strips import reading
from footlight.strips.find import grid
from footlight.strips.scan import scan
doses = reading.Doses(8.0, (0.0, 2.0, 4.0, 8.0, 16.0, 32.0, 64.0, 256.0))
reading.read(scan.load(Path(sys.argv[1])), doses, grid.Guide(8))
# What the kernel remembers across exec includes the parent's peak; its own is in VmHWM, where there is /proc.
status = Path("/proc/self/status")
lines = status.read_text().splitlines() if status.exists() else []
peaks = [line.split()[1] for line in lines if line.startswith("VmHWM")]
print(peaks[0] if peaks else resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
"""


def rows() -> list[tuple]:
    """Time of a 600 ppi strip and of a 9600 × 12000 scan against reading; peak memory of the latter."""
    with tempfile.TemporaryDirectory() as folder:
        small, large = Path(folder) / "small.tif", Path(folder) / "large.tif"
        _write(small, 600, 15.4, None)
        _write(large, 1200, 22.0, _LARGE)
        return [
            ("read a 600 ppi strip / read its file", _ratio(small), 10.0),
            ("read a 9600 × 12000 scan / read its file", _ratio(large), 6.0),
            ("peak memory, 9600 × 12000 of 16 bits", _peak_gib(large), _MOST_GIB, "GiB", "a whole process"),
        ]


def _write(path: Path, ppi: float, cell_mm: float, shape: tuple[int, int] | None) -> None:
    import numpy as np
    import tifffile

    from footlight.strips.simulated import paper, scanner

    made = paper.Paper("hits", middle_stops=-1.9, veil_stops=2.0, grain_d=0.003)
    sheet = scanner.Sheet(_STOPS, cell_mm, cell_mm)
    codes = scanner.scan(
        made, sheet, scanner.Scanner(ppi=ppi, tablet_d=(), uneven=0.0), np.random.default_rng(1)
    ).scan.pixels
    if shape is not None:
        lid = codes[:300]
        room = np.resize(lid, (shape[0], shape[1]))
        high, wide = min(shape[0], codes.shape[0]), min(shape[1], codes.shape[1])
        room[:high, :wide] = codes[:high, :wide]
        codes = room
    tifffile.imwrite(path, codes, resolution=(ppi, ppi), resolutionunit="INCH", compression="zlib")


def _ratio(path: Path) -> float:
    import tifffile

    from footlight.strips import reading
    from footlight.strips.find import grid
    from footlight.strips.scan import scan

    doses = reading.Doses(8.0, (0.0, 2.0, 4.0, 8.0, 16.0, 32.0, 64.0, 256.0))
    return ratio(
        lambda: reading.read(scan.load(path), doses, grid.Guide(8)), lambda: tifffile.imread(path), turns=3
    )


def _peak_gib(path: Path) -> float:
    found = subprocess.run(
        [sys.executable, "-c", _READ, str(path)], check=True, capture_output=True, text=True
    )
    return int(found.stdout) / 1024**2
