"""docs/sources.md has every source that is named anywhere, and none that is named nowhere else."""

import re
from pathlib import Path

from tests.documents.fences import REPOSITORY

PAGE = REPOSITORY / "docs" / "sources.md"
# How sources are named: standards and laws by number, handbooks and the like by name.
NAMED = re.compile(
    r"\b(?:ISO/IEC \d{4,5}|ISO \d{1,5}|IEC \d{4,5}(?:-\d+)*|JCGM \d+|CIE \d{4}|IEEE \d{3}\.\d|RFC \d{3,4}"
    r"|SS\d{4}|NAVEDTRA \d+|21 CFR [\d]+\.\d+|Regulation \((?:EC|EU)\) (?:No )?\d+/\d+|IES Lighting Handbook"
    r"|Perry's|International Critical Tables|IUPAC|CODATA|Foote's formula|Schwarzschild's law|Wien's law"
    r"|Planck's law|JSON-RPC 2\.0|no-color\.org|(?:RP2040|Pico|MAX7219|74AHCT125|IRLZ44N) data ?sheet)"
)
NOT_SOURCES = {"ISO 100"}  # a film speed
PLACES = ("host", "firmware", "hardware", "tests", "docs")


def key(named: str) -> str:
    """One spelling of a source."""
    return named.replace("(EC) No ", "(EC) ").replace("datasheet", "data sheet")


def named_in(path: Path) -> set[str]:
    text = " ".join(path.read_text(encoding="utf-8").split())
    return {key(named) for named in NAMED.findall(text)} - NOT_SOURCES


def elsewhere() -> dict[str, Path]:
    own = {PAGE, Path(__file__)}
    files = (
        path
        for place in PLACES
        for path in (REPOSITORY / place).rglob("*")
        if path.suffix in (".py", ".md", ".toml")
    )
    return {named: path for path in files if path not in own for named in named_in(path)}


def test_every_source_is_listed():
    found = elsewhere()
    assert len(found) > 20
    missing = {named: path.relative_to(REPOSITORY).as_posix() for named, path in found.items()}
    assert {named: where for named, where in missing.items() if named not in named_in(PAGE)} == {}


def test_every_listed_source_is_used():
    assert named_in(PAGE) - set(elsewhere()) == set()
