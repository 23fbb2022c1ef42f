"""`python -m tests.witnesses.strip_scans SEED FOLDER`: draw one scan; say how it is read, and the truth."""

import shlex
import sys
from pathlib import Path

from tests.witnesses.strip_scans.scan import write
from tests.witnesses.strip_scans.scenario import scenario

scan = write(scenario(int(sys.argv[1])), Path(sys.argv[2]))
print("footlight", shlex.join(scan.words))
truth = scan.truth
print(f"{truth.family}: black is full from {truth.full_s:.3g} s, white is clean to {truth.clean_s:.3g} s")
