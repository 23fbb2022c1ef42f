"""What was really mixed wins over what the sequence says: label, plan, check list, wall card, send."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from footlight import examples
from footlight.chemistry.formula import as_text, from_text
from footlight.chemistry.shelf import NAMES, shipped
from footlight.cli.main import group
from footlight.errors import FootlightError, InputError

FILE = examples.path("reversal-print")
STRONG = """name = "my bleach"
kind = "bleach"
makes = "1 L"
[[ingredient]]
what = "citric acid"
form = "monohydrate"
mass = "20 g"
[[ingredient]]
what = "hydrogen peroxide"
strength = "12 % w/w"
"""


@pytest.fixture(autouse=True)
def evening(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", str(tmp_path / "notebook.sqlite"))
    monkeypatch.chdir(tmp_path)
    (tmp_path / "my-bleach.toml").write_text(STRONG)


def run(*words: str | Path) -> Result:
    result = CliRunner().invoke(group, [str(word) for word in words])
    if result.exception is not None and not isinstance(result.exception, (FootlightError, SystemExit)):
        raise result.exception
    return result


def keep_strong_bleach() -> None:
    done = run("mix", "bath", "my-bleach.toml", "1 L", "--stock", "30 % w/w", "--keep", "bleach")
    assert done.exit_code == 0, done.exception


def test_every_shipped_formula_is_kept_and_read_again():
    for name in NAMES:
        assert from_text(as_text(shipped(name))) == shipped(name)
    for text in ("", "{}", "[]", '{"ingredients": [1]}'):
        with pytest.raises(InputError, match="mix it anew"):
            from_text(text)


def test_twelve_percent_is_labelled_as_it_is(tmp_path: Path):
    keep_strong_bleach()
    done = run("page", "labels", FILE)
    html = (tmp_path / "reversal-print-labels.html").read_text()
    # CLP, Annex VI, 008-003-00-9: 8 to 50 % w/w is Eye Dam. 1, H318, 'Danger'; 5 to 8 % is H319.
    assert "hydrogen peroxide 12 % w/w" in html and "H318" in html and "Danger" in html
    assert "H319" not in html and "6 % w/w" not in html
    assert "what stands there is not the sequence's bath" in done.output
    run("page", "labels", FILE, "--blank", "--replace")
    assert "H318" in (tmp_path / "reversal-print-labels.html").read_text()


def test_plan_ready_and_card_tell_of_what_stands_there(tmp_path: Path):
    keep_strong_bleach()
    plan = json.loads(run("plan", FILE, "--json").output)
    assert any("H318" in line for line in plan["hazards"]) and not any(
        "H319" in line for line in plan["hazards"]
    )
    ready = run("ready", FILE)
    assert ready.exit_code == 1 and "not ready" in str(ready.exception) and "bleach" in str(ready.exception)
    assert "[!] bleach: what stands there is not the sequence's bath" in ready.output
    assert run("page", "card", FILE, "--out", "card.html").exit_code == 0
    assert "apron that sheds water" in (tmp_path / "card.html").read_text()


def test_the_sequences_own_bath_is_no_mismatch():
    run("mix", "bath", "peroxide-bleach", "1 L", "--stock", "30 % w/w", "--keep", "bleach")
    ready = run("ready", FILE)
    assert ready.exit_code == 0 and "not the sequence's bath" not in ready.output


def test_a_bath_of_another_name_only_by_words_is_left_to_the_file():
    assert run("bath", "mixed", "bleach", "--volume", "1 l").exit_code == 0
    assert run("ready", FILE).exit_code == 0


def test_the_next_mixing_of_the_same_is_the_same():
    keep_strong_bleach()
    assert run("bath", "mixed", "bleach").exit_code == 0
    assert run("ready", FILE).exit_code == 1


def test_a_developer_from_a_concentrate_is_not_labelled_as_powders(tmp_path: Path):
    assert run("mix", "bath", "second-developer", "1 L", "--keep", "developer").exit_code == 0
    run("page", "labels", FILE)
    html = (tmp_path / "reversal-print-labels.html").read_text()
    assert "paper developer concentrate 1 + 9" in html and "metol" not in html


def test_poured_together_with_a_spoon(tmp_path: Path):
    words = ("100 mL of 30 % w/w", "200 mL water", "citric acid, 1 level tablespoon")
    done = run("mix", "strength", *words, "--keep", "bleach", "--json")
    told = json.loads(done.output)
    # 1 + 2 by volume of 30 % w/w is 10.73 % w/w (mass is conserved, not volume; Perry's densities).
    assert told["percent_ww"] == pytest.approx(10.73, abs=0.01)
    # Three level teaspoons of 4.5 g (4 to 5 g: common practice, no source) in 0.3 L.
    assert "citric acid, monohydrate 45" in told["holds"]
    run("page", "labels", FILE)
    assert "hydrogen peroxide 10.7 % w/w" in (tmp_path / "reversal-print-labels.html").read_text()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("100 ml peroxide", "200 ml water"), "does not say how strong"),
        (("30 % w/w", "200 ml water"), "does not say how much of what"),
        (
            ("30 % w/w, 100 mL", "acetone, 20 mL"),
            "is neither water, peroxide",
        ),
        (("water, 100 mL", "citric acid, 5 g"), "water alone"),
        (("30 % w/w, 100 mL", "citric acid powder, 2 handfuls"), "does not say how much of what"),
    ],
)
def test_parts_that_cannot_be_read(words: tuple[str, ...], says: str):
    result = run("mix", "strength", *words)
    assert result.exit_code == 1 and says in str(result.exception)
