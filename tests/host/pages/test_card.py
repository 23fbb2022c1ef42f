"""The wall card: one page whatever the sequence, its times tall enough, nothing in colour, nothing cut."""

from pathlib import Path

import pytest
from tests.host.pages.browser import DPI, Printout, is_grey, needs_browser, stands_free
from tests.host.repeating.prints import asked, refused

from footlight import examples, sequence
from footlight.report.pages import fit
from footlight.report.pages.card import DIGITS_MM, Printed, printed
from footlight.report.pages.card_of import card_of
from footlight.sequence import Compiled

FONT = Path("/usr/share/fonts/truetype/liberation")


def shipped(name: str) -> Compiled:
    return sequence.compile(sequence.load(examples.path(name)))


def card(name: str, paper: str = "any") -> Printed:
    return printed(card_of(shipped(name)), paper)


@pytest.mark.parametrize("name", list(examples.NAMES))
@pytest.mark.parametrize("paper", ["any", "a4", "letter"])
def test_digits_for_two_metres(name: str, paper: str):
    # 5 minutes of arc at 2 m are 2000 mm x tan(5/60 degrees) = 2.91 mm; three times that under a red lamp.
    assert card(name, paper).digits_mm >= DIGITS_MM >= 3 * 2.91


def test_each_step_is_on_it():
    html = card("reversal-print").html
    for words in ("first developer", "2:00", "lift 10 s; agitate first 30 s, then 5 s every 30 s", ">10.0<"):
        assert words in html
    assert "enlarger, 80 mm, f/11, 800 mm; settle 10 s" in html
    assert "Wear face shield or goggles AND gloves" in html
    assert "1 developer and 3 bleach, 3 bleach and 5 clear, 3 bleach and 7 fixer" in html
    assert "squeegee" in html and html.count("white light</span>") == 1
    # The sheet is still in its tray of step 6 when the light comes; a batch of dry sheets has no finish.
    assert "squeegee" not in card("pre-flash").html and "each of 8 sheets" in card("pre-flash").html


def test_lights_of_a_strip_say_their_setup_once():
    assert card("second-exposure-strip").html.count("enlarger, 80 mm, f/11, 620 mm") == 1


def odd(folder: Path, steps: int, name: str = "W" * 24) -> Compiled:
    path = folder / "odd.toml"
    tray = '[trays.a]\nplace = "12"\ntongs = "MM"\nbath = "<b>acid & salt</b>"\n'
    note = "words that go on for a while, and then some more of them, " * 2
    step = f'[[step]]\nkind = "bath"\nname = "{name}"\nshow = "X"\ntray = "a"\ntime = "1:00:00"\n'
    step += f'note = "{note}"\n'
    path.write_text(f'title = "ODD"\nname = "<script>odd"\n{tray}{step * steps}', encoding="utf-8")
    return sequence.compile(sequence.load(path))


def test_names_are_no_markup(tmp_path: Path):
    html = printed(card_of(odd(tmp_path, 1, "<i>x</i> & y"), ("<u>dry</u>",))).html
    assert "<script" not in html and "<i>" not in html and "<u>" not in html and "<b>acid" not in html
    assert "&lt;i&gt;x&lt;/i&gt; &amp; y" in html and "&lt;u&gt;dry" in html


@needs_browser
@pytest.mark.parametrize(
    ("name", "paper", "size_mm"),
    [
        ("reversal-print", "a4", (210, 297)),
        ("reversal-print", "letter", (216, 279)),
        ("second-exposure-strip", "any", (216, 279)),
        ("second-exposure-strip", "a4", (210, 297)),
        ("pre-flash", "letter", (216, 279)),
    ],
)
def test_printed_by_a_browser(name: str, paper: str, size_mm: tuple[int, int], tmp_path: Path):
    page = Printout(card(name, paper).html, tmp_path)
    assert (page.sheets, page.size_mm) == (1, size_mm)
    pixels = page.pixels()
    assert is_grey(pixels) and stands_free(pixels)


@needs_browser
def test_digits_as_printed(tmp_path: Path):
    """The tallest ink in the column of times, measured on the paper; rules stand clear of it."""
    pixels = Printout(card("reversal-print", "letter").html, tmp_path).pixels()
    # Full contrast: black ink on bare paper.
    assert (pixels.min(), pixels.max()) == (0, 255)
    left, right = (round((13 + place) / 25.4 * DPI) for place in (28.0, 60.0))
    dark = (pixels[:, left:right].min(axis=2) < 128).any(axis=1)
    tallest, run = 0, 0
    for is_dark in dark:
        run = run + 1 if is_dark else 0
        tallest = max(tallest, run)
    assert DIGITS_MM - 0.2 <= tallest / DPI * 25.4 <= DIGITS_MM + 1.0


@needs_browser
@pytest.mark.parametrize("steps", [1, 40])
def test_the_longest_sequence_is_still_one_page(tmp_path: Path, steps: int):
    made = printed(card_of(odd(tmp_path, steps)), "letter")
    page = Printout(made.html, tmp_path)
    assert page.sheets == 1 and stands_free(page.pixels())
    assert steps == 1 or made.digits_mm < DIGITS_MM


@pytest.mark.skipif(not FONT.exists(), reason="NOT COMPARED: the type itself is not on this machine")
@pytest.mark.parametrize(("face", "bold"), [("Regular", False), ("Bold", True)])
def test_widths_are_those_of_the_type(face: str, bold: bool):
    from fontTools.ttLib import TTFont

    font = TTFont(FONT / f"LiberationSans-{face}.ttf")
    names, advances = font.getBestCmap() or {}, font["hmtx"]
    for char in map(chr, range(32, 127)):
        width = advances[names[ord(char)]][0] / 2048
        assert fit.width_mm(char, 1.0, bold) == pytest.approx(width, abs=0.0006), char


@pytest.mark.parametrize(
    ("text", "lines"), [("", 0), ("one", 1), ("aaaa aaaa", 2), ("a" * 20, 3), ("a " * 12, 3)]
)
def test_lines(text: str, lines: int):
    # An 'a' is 0.556 wide, a blank 0.278: a column of 4.5 holds eight letters, or five with blanks.
    assert fit.lines(text, 1.0, 4.5) == lines


def test_the_command(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(tmp_path)
    said = asked("page", "card", examples.path("reversal-print"))
    assert said == "reversal-print-card.html: 13 steps, digits of 9.1 mm\n"
    assert "is there already" in refused("page", "card", examples.path("reversal-print"))
    asked("page", "card", examples.path("reversal-print"), "--replace", "--finish", "press under glass")
    assert "press under glass" in Path("reversal-print-card.html").read_text()
    assert "no such file" in refused("page", "card", "none.toml")
