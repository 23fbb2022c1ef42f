"""The commands as a printer types them."""

import json

import pytest
from click.testing import CliRunner

from footlight.cli.main import group
from footlight.errors import FootlightError
from footlight.strips import need
from footlight.strips.result import from_json, to_json

TABLET = "0.06, 0.2, 0.35, 0.5, 0.7, 0.9, 1.1, 1.3, 1.5, 1.7, 1.9, 2.1"
STRIP = ["--present", "8 s", "--centre", "8 s", "--tablet", TABLET]


def run(*words):
    return CliRunner().invoke(group, ["read", *map(str, words)])


def refused(*words):
    found = run(*words)
    assert isinstance(found.exception, FootlightError)
    assert "\n" not in str(found.exception)
    return str(found.exception)


@pytest.fixture(scope="module")
def scan(tmp_path_factory):
    path = tmp_path_factory.mktemp("scan") / "strip.tif"
    assert run("sample", path, "--ppi", "300").exit_code == 0
    return path


def test_from_scan_to_advice(scan, tmp_path):
    page = tmp_path / "page.html"
    found = run("strip", scan, *STRIP, "--report", page, "--json")
    assert found.exit_code == 0, found.exception
    told = json.loads(found.output)
    assert told["advice"]["verdict"] == "advice" and told["version"] == 1
    text = page.read_text("utf-8")
    assert text.startswith("<!doctype html>") and "data:image/png;base64," in text and "http" not in text
    assert to_json(from_json(found.output, "x")) == found.output.rstrip("\n")


def test_in_words(scan):
    said = run("strip", scan, *STRIP).output
    assert said.startswith("Give ") and "Scan dry only" in said and "Black is full from " in said


def test_png_page(scan, tmp_path):
    page = tmp_path / "page.png"
    run("strip", scan, *STRIP, "--report", page)
    assert page.read_bytes()[:4] == b"\x89PNG"


def test_every_word_is_on_the_page():
    """However much there is to say: the words get smaller, none is dropped."""
    from matplotlib.figure import Figure

    from footlight.strips.show import picture

    for top, height_in, count in ((0.215, 11.69, 28), (0.15, 8.0, 12)):
        rows = [f"Sentence {n} says of a bath how old it is, and what is to be done." for n in range(count)]
        page = Figure(figsize=(8.27, height_in))
        picture.words_below(page, rows, top)
        text = " ".join(part.get_text() for part in page.texts)
        assert all(f"Sentence {n} says" in text for n in range(count))
        assert min(part.get_position()[1] for part in page.texts) > 0


def test_print(scan):
    told = json.loads(run("print", scan, "--rebate", "20, 14, 10, 10", "--json").output)
    assert told["places"]["rebate"]["tiles"] >= 25


def test_eye():
    said = run("eye", "--first-full", 3, "--last-clean", 8, "--present", "8 s", "--centre", "8 s",
               "--step", "1/3 stop", "--steps", 9)  # fmt: skip
    assert said.output.startswith("Give ") and "Before you trust a change" in said.output
    assert "wet blacks look fuller than dry ones" in said.output


def test_eye_without_a_window_says_where_to_look():
    said = run("eye", "--first-full", 5, "--last-clean", 3, "--present", "8 s", "--centre", "8 s").output
    assert "No safe dose" in said and "halide or silver left" in said


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--present", "8 s"], "either --doses"),
        (["--present", "8 s", "--doses", "1 s, 2 s"], "write a zero"),
        ([*STRIP, "--bands", "black, red"], "'red' is no band"),
        ([*STRIP, "--patch", "0.06 at 12, 80 mm"], "either --tablet or --patch, not both"),
        (["--present", "8 s", "--centre", "8 s", "--patch", "0.06 here"], "density and place"),
        ([*STRIP, "--report", "page.doc"], ".html or .png"),
        ([*STRIP, "--paper", "0.08, 0.09"], "one density, or three"),
        ([*STRIP, "--earlier", "nothing.json"], "no such file"),
    ],
)
def test_bad_words(scan, words, told):
    assert told in refused("strip", scan, *words)


def test_three_densities_of_the_base():
    """Luminance by IEC 61966-2-1: 0.2126·10^-0.1 + 0.7152·10^-0.1 + 0.0722·10^-0.2 is 0.1061 D."""
    from footlight.actions.open_scan import base_d

    assert base_d((0.1, 0.1, 0.2)) == (pytest.approx(0.1065, abs=1e-4), pytest.approx(0.1))
    assert base_d((0.08,)) == (0.08, None) and base_d(()) == (None, None)


def test_missing_packages_are_said_with_the_remedy(monkeypatch):
    monkeypatch.setattr("importlib.util.find_spec", lambda name: None)
    with pytest.raises(FootlightError, match=r"pip install 'footlight\[scans\]'"):
        need.scans()


def test_reading_by_eye_imports_no_numpy():
    import subprocess
    import sys

    code = (
        "import sys, footlight.actions.read_by_eye, footlight.cli.read.eye; sys.exit('numpy' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
