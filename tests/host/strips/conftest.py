"""The strips' tests need the extra `scans`; the development install has it."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
