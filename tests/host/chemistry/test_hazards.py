"""Hazards by concentration, against the limits of the regulation, at their very edges."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footlight import examples
from footlight.chemistry import clp, shelf
from footlight.chemistry.formula import formula_of
from footlight.chemistry.hazards import (
    clashes_between,
    hazards_for,
    hazards_for_baths,
    hazards_of_stocks,
)
from footlight.errors import InputError

PEROXIDE = "hydrogen peroxide"

# Regulation (EC) 1272/2008, Annex VI, index 008-003-00-9, % w/w; seen in part, the rest from memory;
# under revision.
ANNEX_VI = [
    ("Ox. Liq. 1", 70, 101),
    ("Ox. Liq. 2", 50, 70),
    ("Skin Corr. 1A", 70, 101),
    ("Skin Corr. 1B", 50, 70),
    ("Skin Irrit. 2", 35, 50),
    ("Eye Dam. 1", 8, 50),
    ("Eye Irrit. 2", 5, 8),
    ("STOT SE 3", 35, 101),
]


def classes(percent_ww: float) -> set[str]:
    return {said.hazard for said in hazards_for(PEROXIDE, percent_ww).statements}


@pytest.mark.parametrize(("hazard", "least", "below"), ANNEX_VI)
def test_peroxide_limits(hazard, least, below):
    assert hazard in classes(least)
    assert hazard not in classes(least - 0.01)
    assert hazard in classes(min(below - 0.01, 100))
    if below <= 100:
        assert hazard not in classes(below)


@pytest.mark.parametrize(("percent", "expected"), [(3, set()), (6, {"Eye Irrit. 2"}), (12, {"Eye Dam. 1"})])
def test_usual_baths(percent, expected):
    assert classes(percent) == expected


# The wording of Annex III.
@pytest.mark.parametrize(
    ("hazard", "code"), [("Eye Dam. 1", "H318"), ("Eye Irrit. 2", "H319"), ("STOT SE 3", "H335")]
)
def test_statement_codes(hazard, code):
    assert clp.STATEMENTS[hazard][0] == code


# Regulation (EU) 2019/1148, Annex I: above 12 % w/w restricted for the general public.
@pytest.mark.parametrize(("percent", "says"), [(12, "this is not above it"), (12.01, "this is above it")])
def test_public_sale(percent, says):
    rules = " ".join(hazards_for(PEROXIDE, percent).rules)
    assert says in rules
    assert "12 % w/w" in rules
    assert "2019/1148" in rules


@given(st.floats(0.1, 100))
def test_peroxide_always_says_what_matters(percent):
    found = hazards_for(PEROXIDE, percent)
    text = "\n".join(found.lines)
    for words in ("goggles", "AND gloves", "NEVER in a sealed bottle", "silver", "under revision",
                  "1272/2008", "Local rules", "acetone", "chlorine", "developer", "white light"):  # fmt: skip
        assert words in text
    assert "goggles" in found.short
    assert ("face shield" in found.wear[0]) and ("gloves" in found.wear[0])


@given(st.floats(0.1, 100), st.floats(0, 50))
def test_no_class_is_lost_upwards_but_to_a_worse_one(percent, more):
    """Eye and skin classes give way only to damage or corrosion."""
    before, after = classes(percent), classes(min(percent + more, 100))
    worse = {"Eye Irrit. 2", "Eye Dam. 1", "Skin Irrit. 2", "Ox. Liq. 2", "Skin Corr. 1B"}
    assert before - after <= worse
    if before & worse:
        assert after & {"Eye Irrit. 2", "Eye Dam. 1", "Skin Corr. 1B", "Skin Corr. 1A"}


@pytest.mark.parametrize("bad", [0, -1, 101, float("nan")])
def test_strengths_that_cannot_be(bad):
    with pytest.raises(InputError, match="out of range; allowed is above 0 to 100"):
        hazards_for(PEROXIDE, bad)


def test_peroxide_without_its_strength_is_refused():
    with pytest.raises(InputError, match="depend on its strength"):
        hazards_for(PEROXIDE)


def test_a_formula_has_its_own_strengths():
    with pytest.raises(InputError, match="it is a formula, and its strengths are its own"):
        hazards_for("peroxide bleach", 10)


def test_what_is_not_known_is_never_passed_off_as_safe():
    found = hazards_for("secret soup")
    assert not found.known
    assert "goggles AND gloves" in found.wear[0]
    assert "not known here" in found.short
    assert "none by these limits" not in "\n".join(found.lines)
    assert not hazards_for("paper developer concentrate").known


# Annex I: 1 % for carcinogens and mutagens of category 2 and sensitisers, 0.1 % for EUH208; from memory.
def test_powders_and_their_bath():
    pure = {said.code for said in hazards_for("hydroquinone").statements}
    assert pure >= {"H302", "H317", "H318", "H341", "H351", "H400"}
    bath = hazards_for(shelf.shipped("first-developer"))
    assert {said.code for said in bath.statements} == {"EUH208"}
    assert [one.title for one in hazards_of_stocks(shelf.shipped("first-developer"))][:1] == ["metol"]


def test_stocks_of_the_bleach_need_the_bottle():
    stocks = hazards_of_stocks(shelf.shipped("peroxide-bleach"), 35)
    assert {"H318", "H335"} <= {said.code for said in stocks[1].statements}
    with pytest.raises(InputError, match="depend on its strength"):
        hazards_of_stocks(shelf.shipped("peroxide-bleach"))


def test_every_ingredient_on_the_shelf_is_known():
    for name in shelf.NAMES:
        for one in hazards_of_stocks(shelf.shipped(name), 35):
            assert "safety data sheet" not in " ".join(one.remarks), one.title


def test_every_class_of_a_substance_has_limits_and_words():
    for substance in clp.SUBSTANCES:
        for band in substance.bands():
            assert band.hazard in clp.STATEMENTS
            assert 0 < band.least < band.below


@pytest.mark.parametrize("name", examples.NAMES)
def test_the_baths_of_the_shipped_sequences(name):
    import tomllib

    trays = tomllib.loads(examples.text(f"{name}.toml")).get("trays", {})
    found = hazards_for_baths(tray["bath"] for tray in trays.values())
    assert all(one.known for one in found), [one.title for one in found if not one.known]
    assert not any("water" in one.title for one in found)
    if trays:
        bleach = next(one for one in found if "bleach" in one.title)
        assert "goggles" in bleach.short
        assert "yours may be stronger" in bleach.remarks[0]


def test_what_must_not_be_poured_together():
    bleach, fixer, developer = hazards_for_baths(["peroxide bleach", "fixer", "first developer"])
    told = clashes_between([bleach, fixer])
    assert any("peroxide with developer, sulfite or fixer" in text for text in told)
    assert any("sulphur dioxide" in text for text in told)
    assert clashes_between([fixer, developer]) == ()
    assert clashes_between([bleach]) == ()


def test_json_form_is_plain():
    import json

    text = json.dumps([one.as_dict() for one in hazards_for_baths(["peroxide bleach", "secret soup"])])
    assert "H319" in text
    assert '"known": false' in text


@pytest.mark.parametrize(
    ("percent", "word"), [(3, ""), (5, "Warning"), (7.9, "Warning"), (8, "Danger"), (70, "Danger")]
)
def test_signal_words_of_peroxide(percent, word):
    # Annex I: Eye Irrit. 2 'Warning'; Eye Dam. 1, Skin Corr. 1 and Ox. Liq. 1 'Danger'; from memory.
    assert hazards_for("hydrogen peroxide", percent).signal_word == word


def test_every_class_has_its_signal_word_or_says_that_it_has_none():
    assert set(clp.SIGNAL_WORDS) == set(clp.STATEMENTS)
    supplemental = {name for name, (code, _) in clp.STATEMENTS.items() if code.startswith("EUH")}
    assert {name for name, word in clp.SIGNAL_WORDS.items() if not word} == supplemental


# Everyday names, and what they must be warned of together. Common practice, no source; bleach with acid or
# ammonia is on every bottle of chlorine bleach.
@pytest.mark.parametrize(
    ("one", "other", "says"),
    [
        (("rapid fixer", None), ("stop bath", None), "sulphur dioxide"),
        (("rapid fixer", None), ("hydrogen peroxide", 6), "foams"),
        (("vinegar", None), ("hydrogen peroxide", 6), "peracids"),
        (("formic acid", 5), ("hydrogen peroxide", 6), "peracids"),
        (("battery acid", 10), ("hydrogen peroxide", 6), "peracids"),
        (("chlorine bleach", None), ("vinegar", None), "chlorine gas"),
        (("chlorine bleach", None), ("ammonia", 10), "chloramine"),
        (("household bleach", None), ("hydrogen peroxide", 6), "fast gas"),
        (("acetone", None), ("hydrogen peroxide", 6), "explosive"),
        (("ammonia", 10), ("hydrogen peroxide", 6), "falls apart"),
        (("permanganate", None), ("hydrogen peroxide", 6), "runs away"),
        (("a jar without a label", None), ("hydrogen peroxide", 6), "cannot tell: keep it apart"),
    ],
)
def test_everyday_names_are_warned_of(
    one: tuple[str, float | None], other: tuple[str, float | None], says: str
):
    told = " ".join(clashes_between([hazards_for(*one), hazards_for(*other)]))
    assert says in told


def test_citric_acid_alone_belongs_in_the_bleach():
    assert clashes_between([hazards_for("citric acid"), hazards_for("hydrogen peroxide", 6)]) == ()


def test_every_sensitiser_of_a_developer_is_named():
    formula = formula_of(
        {
            "name": "weak developer",
            "kind": "developer",
            "makes": "1 L",
            "ingredient": [{"what": "metol", "mass": "2 g"}, {"what": "hydroquinone", "mass": "5 g"}],
        },
        lambda key: key,
    )
    (said,) = [said for said in hazards_for(formula).statements if said.code == "EUH208"]
    assert said.text.startswith("Contains metol and hydroquinone.")


def test_first_aid_says_the_eye_first():
    assert hazards_for("hydrogen peroxide", 6).first_aid[0].startswith("In an eye")
    assert any(line.startswith("On skin") for line in hazards_for("hydrogen peroxide", 40).first_aid)
    assert hazards_for("nothing that is known").first_aid == ()
