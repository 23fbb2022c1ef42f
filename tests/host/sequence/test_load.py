"""What is wrong with a sequence file is said in one line: file, line, step, key, value, what is allowed."""

from pathlib import Path

import pytest
from tests.host.sequence.writing import FIX, HEAD, LIGHT, PAUSE, SETUPS, TRAY, write

from footlight import sequence
from footlight.errors import InputError
from footlight.sequence.hazards import hazards_of
from footlight.sequence.model import Agitation, Bath, ByHand, Cue

STIR = FIX + "agitation = {{ {} }}\n"


def lit(change: str = "", old: str = 'dose = "reference"', new: str | None = None) -> str:
    return HEAD + (LIGHT.replace(old, new) if new is not None else LIGHT) + change


# (what, sequence file, light-setups file, words that the message must hold)
CASES = [
    ("no title", 'name = "x"\n' + PAUSE, SETUPS, ["title is missing", 'title = "PRINT"']),
    (
        "long title",
        'title = "SEVENTH"\nname = "x"\n' + PAUSE,
        SETUPS,
        ["line 1", "title", "'SEVENTH'", "1 to 6"],
    ),
    ("wide title", 'title = "MMMMMM"\nname = "x"\n' + PAUSE, SETUPS, ["too wide", "M, V and W"]),
    ("unknown in head", HEAD + 'titel = "X"\n' + PAUSE, SETUPS, ["line 3", "titel", "did you mean 'title'"]),
    (
        "unknown in step",
        HEAD + TRAY + FIX + 'lfit = "10 s"\n',
        SETUPS,
        ["line 11, step 1 'fix': lfit", "'lift'"],
    ),
    ("unknown in tray", HEAD + TRAY + 'tong = "A"\n' + FIX, SETUPS, ["tray 'fixer': tong", "'tongs'"]),
    (
        "unknown in agitation",
        HEAD + TRAY + STIR.format('evry = "5 s"'),
        SETUPS,
        ["agitation: evry", "'every'"],
    ),
    (
        "key of another kind",
        HEAD + PAUSE + 'time = "5 s"\n',
        SETUPS,
        ["step 1 'look': time is not a key here"],
    ),
    ("no kind", HEAD + '[[step]]\nname = "x"\n', SETUPS, ["step 1 'x'", "kind is missing", '"by hand"']),
    (
        "wrong kind",
        HEAD + PAUSE.replace("pause", "puase"),
        SETUPS,
        ["kind", "'puase'", "did you mean 'pause'"],
    ),
    ("kind is a list", HEAD + '[[step]]\nkind = ["bath"]\n', SETUPS, ["step 1", "a list is not a text"]),
    ("one bracket", HEAD + PAUSE.replace("[[step]]", "[step]"), SETUPS, ["[[step]]", "two brackets"]),
    ("steps are texts", 'title = "X"\nname = "x"\nstep = ["fix"]\n', SETUPS, ["step 1", "[[step]]"]),
    ("no steps", HEAD + "step = []\n", SETUPS, ["0 steps", "1 to 40"]),
    ("too many steps", HEAD + PAUSE * 41, SETUPS, ["41 steps", "1 to 40", "two sequences"]),
    (
        "no unit",
        HEAD + TRAY + FIX.replace('"1:00"', '"60"'),
        SETUPS,
        ["line 10, step 1 'fix': time", "no unit", "1:30"],
    ),
    ("bare number", HEAD + TRAY + FIX.replace('"1:00"', "60"), SETUPS, ["time: 60 has no unit", "quotes"]),
    ("negative time", HEAD + TRAY + FIX.replace('"1:00"', '"-60 s"'), SETUPS, ["time", "negative"]),
    (
        "absurd time",
        HEAD + TRAY + FIX.replace('"1:00"', '"5 h"'),
        SETUPS,
        ["'5 h' is out of range", "4:00:00"],
    ),
    ("zero time", HEAD + TRAY + FIX.replace('"1:00"', '"0 s"'), SETUPS, ["'0 s' is out of range", "1 s to"]),
    (
        "no tray",
        HEAD + TRAY + FIX.replace('"fixer"', '"fixr"'),
        SETUPS,
        ["there is no tray 'fixr'", "'fixer'"],
    ),
    ("no trays at all", HEAD + FIX, SETUPS, ["there is no tray 'fixer'", "[trays.fixer]"]),
    (
        "long place",
        HEAD + TRAY.replace('"5"', '"LEFT"') + FIX,
        SETUPS,
        ["tray 'fixer': place", "'LEFT'", "1 to 2"],
    ),
    ("lift too long", HEAD + TRAY + FIX + 'lift = "60 s"\n', SETUPS, ["lift: 1:00", "less than time = 1:00"]),
    ("every without for", HEAD + TRAY + STIR.format('every = "30 s"'), SETUPS, ["for is missing"]),
    (
        "for not below every",
        HEAD + TRAY + STIR.format('every = "5 s", for = "5 s"'),
        SETUPS,
        ["for: 5 s", "every = 5 s"],
    ),
    (
        "first step by itself",
        HEAD + TRAY + FIX + 'after = "auto"\n',
        SETUPS,
        ["after", "waits for the pedal"],
    ),
    ("life", HEAD + TRAY + 'life = "long"\n' + FIX, SETUPS, ["life: 'long'", "one sheet"]),
    ("sheets", "sheets = 100\n" + HEAD + PAUSE, SETUPS, ["line 1: sheets: 100", "from 1 to 99"]),
    ("sheets is true", "sheets = true\n" + HEAD + PAUSE, SETUPS, ["sheets: true"]),
    (
        "flag is a text",
        HEAD + PAUSE + 'white_light = "yes"\n',
        SETUPS,
        ["white_light: yes", "true nor false"],
    ),
    (
        "needs show",
        HEAD + PAUSE.replace("look", "look at it"),
        SETUPS,
        ["'look at it'", 'add for example show = "LOOK A"'],
    ),
    ("cannot show", HEAD + PAUSE + 'show = "Ä"\n', SETUPS, ["show: 'Ä' does not fit the display"]),
    (
        "name not ASCII",
        HEAD + PAUSE.replace("look", "schönes"),
        SETUPS,
        ["'schönes' is no name", "printable ASCII"],
    ),
    (
        "least not below most",
        HEAD + '[[step]]\nkind = "until pressed"\nname = "bleach"\nleast = "2:00"\nmost = "1:00"\n',
        SETUPS,
        ["least: 2:00", "less than most = 1:00"],
    ),
    (
        "cue outside",
        HEAD
        + '[[step]]\nkind = "by hand"\nname = "shake"\ntime = "10 s"\ncues = [{ at = "11 s", show = "X" }]\n',
        SETUPS,
        ["line 7, step 1 'shake': cue 1: at: 11 s", "within time = 10 s"],
    ),
    (
        "cues out of order",
        HEAD + '[[step]]\nkind = "by hand"\nname = "shake"\ntime = "10 s"\n'
        'cues = [{ at = "5 s", show = "X" }, { at = "5 s", show = "Y" }]\n',
        SETUPS,
        ["cue 2", "in order"],
    ),
    ("light by itself", lit('after = "auto"\n'), SETUPS, ["never starts by itself"]),
    (
        "no such setup",
        lit(old='"second"', new='"secnd"'),
        SETUPS,
        ["no light setup 'secnd'", "did you mean 'second'"],
    ),
    ("neither dose nor time", lit(old='dose = "reference"\n', new=""), SETUPS, ["neither is written"]),
    ("dose and time", lit('time = "8 s"\n'), SETUPS, ["both are written"]),
    (
        "already without dose",
        lit('already = "1 s"\n', new='time = "8 s"'),
        SETUPS,
        ["already", "only with a dose"],
    ),
    ("dose without unit", lit(new='dose = "1/3"'), SETUPS, ["dose: '1/3' has no unit", "'+1/3 stop'"]),
    ("dose is nonsense", lit(new='dose = "plenty"'), SETUPS, ["'plenty' is not a dose"]),
    ("height without unit", lit('height = "620"\n'), SETUPS, ["height: '620' has no unit"]),
    ("height of a mountain", lit('height = "80 m"\n'), SETUPS, ["'80 m' is out of range", "9999 mm"]),
    ("not a stop", lit('stop = "f/12"\n'), SETUPS, ["'f/12' is not a marked stop", "literal"]),
    (
        "white in a batch",
        "sheets = 2\n" + HEAD + PAUSE + "white_light = true\n",
        SETUPS,
        ["batch of 2 sheets"],
    ),
    (
        "white before a light",
        HEAD + PAUSE + "white_light = true\n" + LIGHT,
        SETUPS,
        ["step 2 'second exposure'", "after the last light"],
    ),
    (
        "setups elsewhere",
        'setups = "../x.toml"\n' + lit(),
        SETUPS,
        ["setups: '../x.toml'", "in this folder or below"],
    ),
    ("setups of the system", 'setups = "/etc/passwd"\n' + lit(), SETUPS, ["in this folder or below"]),
    (
        "no such formula",
        HEAD + TRAY + 'formula = "fixr"\n' + FIX,
        SETUPS,
        ["line 6, tray 'fixer': formula", "no formula 'fixr'", "did you mean 'fixer'", "my-bleach.toml"],
    ),
    (
        "formula elsewhere",
        HEAD + TRAY + 'formula = "/etc/x.toml"\n' + FIX,
        SETUPS,
        ["formula: '/etc/x.toml'", "in this folder or below"],
    ),
    ("no setups file", 'setups = "none.toml"\n' + lit(), SETUPS, ["none.toml", "no such file"]),
    (
        "setup without stop",
        lit(),
        SETUPS.replace('stop = "f/11"\n', ""),
        ["light setup 'second': stop is missing"],
    ),
    (
        "setup without height",
        lit(),
        SETUPS.replace('height = "800 mm"\n', ""),
        ["light setup 'second': height is missing"],
    ),
    (
        "setup without lamp",
        lit(),
        SETUPS.replace('lamp = "lamp"', 'lamp = "lmp"'),
        ["no lamp 'lmp'", "'lamp'"],
    ),
    ("lamp without cap", lit(), SETUPS.replace('cap = "60 s"\n', ""), ["lamp 'lamp': cap is missing"]),
    ("lamp over every cap", lit(), SETUPS.replace('"60 s"', '"3:00"'), ["lamp 'lamp': cap", "2:00"]),
    (
        "reference of nowhere",
        lit(),
        SETUPS.replace(" at 620 mm f/11", ""),
        ["reference: '6.0 s'", "at 620 mm f/11"],
    ),
    (
        "reference without stop",
        lit(),
        SETUPS.replace("620 mm f/11", "620 mm"),
        ["reference: its stop is missing"],
    ),
    ("reference of no light", lit(), SETUPS.replace('"6.0 s at', '"0 s at'), ["'0 s' is no exposure"]),
    (
        "lens that cannot be shown",
        lit(),
        SETUPS.replace('lens = "80 mm"\nfocal_length = "80 mm"', 'lens = "the long lens"'),
        ["lens", "focal_length"],
    ),
    ("unknown in setup", lit(), SETUPS + 'deadtime = "1 s"\n', ["deadtime", "'dead_time'"]),
]


@pytest.mark.parametrize(
    ("text", "setups", "words"), [case[1:] for case in CASES], ids=[case[0] for case in CASES]
)
def test_bad_files(tmp_path: Path, text: str, setups: str, words: list[str]):
    path = write(tmp_path, text, setups)
    with pytest.raises(InputError) as caught:
        sequence.load(path)
    message = str(caught.value)
    assert "\n" not in message and message.isprintable()
    assert "test.toml" in message or "light-setups.toml" in message or "none.toml" in message
    for word in words:
        assert word in message


def test_every_key_is_read(tmp_path: Path):
    text = (
        HEAD
        + TRAY
        + FIX
        + 'show = "fixing"\nlift = "10 s"\nagitation = { first = "20 s", every = "15 s", for = "5 s" }\n'
    )
    text += (
        '[[step]]\nkind = "by hand"\nname = "shake"\ntime = "10 s"\ncues = [{ at = "0 s", show = "go" }]\n'
    )
    found = sequence.load(write(tmp_path, text))
    fix, shake = found.steps
    assert isinstance(fix, Bath)
    assert (fix.show, fix.time_ms, fix.lift_ms, fix.tray.tongs) == ("FIXING", 60_000, 10_000, "C")
    assert fix.agitation == Agitation(20_000, 15_000, 5_000)
    assert isinstance(shake, ByHand) and shake.cues == (Cue(0, "GO"),)


def test_a_formula_of_ones_own(tmp_path: Path):
    """Peroxide at 10 % w/w is Eye Dam. 1 (8 to 50 %: Regulation (EC) 1272/2008, Annex VI)."""
    (tmp_path / "mine.toml").write_text(
        'name = "mine"\nkind = "bleach"\nmakes = "1 L"\n'
        '[[ingredient]]\nwhat = "hydrogen peroxide"\nstrength = "10 % w/w"\n'
    )
    found = sequence.load(write(tmp_path, HEAD + TRAY + 'formula = "mine.toml"\n' + FIX))
    hazards = hazards_of(found)
    assert "mine: H318" in hazards[0] and "gloves" in hazards[0]
    assert any("In an eye" in line for line in hazards)
    (tmp_path / "mine.toml").write_text("nothing")
    with pytest.raises(InputError, match="mine.toml: not a formula file"):
        sequence.load(tmp_path / "test.toml")


def test_water_has_no_hazards_and_a_stranger_says_so(tmp_path: Path):
    found = sequence.load(write(tmp_path, HEAD + TRAY + 'bath = "water, fresh"\n' + FIX))
    assert hazards_of(found) == []
    found = sequence.load(write(tmp_path, HEAD + TRAY + 'bath = "mystery toner"\n' + FIX))
    assert "make-up not known here" in hazards_of(found)[0]


def test_a_place_may_be_a_number(tmp_path: Path):
    (tray,) = sequence.load(write(tmp_path, HEAD + TRAY.replace('"5"', "5") + FIX)).trays
    assert tray.place == "5"


def test_light_setups_are_read_only_for_a_light(tmp_path: Path):
    path = tmp_path / "test.toml"
    path.write_text(HEAD + TRAY + FIX)
    assert sequence.load(path).setups_used == ()


def test_other_light_setups_can_be_given(tmp_path: Path):
    path = write(tmp_path, lit())
    other = tmp_path / "other.toml"
    other.write_text(SETUPS.replace("f/11", "f/16"))
    (found,) = sequence.load(path, other).setups_used
    assert str(found.here) == "800 mm f/16"


def test_commas_in_a_reference_as_in_the_commands(tmp_path: Path):
    path = write(tmp_path, lit(), SETUPS.replace("6.0 s at 620 mm f/11", "6 s, 620 mm, f/11"))
    (light,) = sequence.compile(sequence.load(path)).arithmetic
    assert light.text.startswith("6.0 s at 620 mm f/11 → 10.0 s at 800 mm f/11")
