"""Bath formulas: what is read, what is refused, and that scaling is scaling."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footlight.chemistry import shelf
from footlight.chemistry.formula import formula_of
from footlight.chemistry.scaled import AtHand, scaled
from footlight.errors import InputError
from footlight.quantities.table import in_file

BLEACH = """
name = "my bleach"
kind = "bleach"
makes = "1 L"
[[ingredient]]
what = "citric acid"
form = "monohydrate"
mass = "20 g"
[[ingredient]]
what = "hydrogen peroxide"
strength = "10 % w/w"
"""


def read(text: str):
    return formula_of(tomllib.loads(text), in_file("my.toml"))


@pytest.mark.parametrize("name", shelf.NAMES)
def test_the_shipped_formulas_are_read_and_marked(name):
    formula = shelf.shipped(name)
    assert formula.makes_ml == 1000
    assert formula.ingredients
    assert "common practice, no source" in shelf.text(name).lower().replace("\n# ", " ")


# 1 L at 10 % w/w from 30 % w/w: 310.2 mL (from the densities); 20 g of monohydrate: 20/1.09377 = 18.29 g dry.
def test_a_bath_by_hand():
    batch = scaled(read(BLEACH), 1000, AtHand(stock_ww=30, form="anhydrous"))
    acid, peroxide = batch.measures
    assert acid.mass_g == pytest.approx(18.29, abs=0.005)
    assert peroxide.volume_ml == pytest.approx(310.2, abs=0.05)
    assert "anhydrous" in acid.what
    assert batch.begin_ml == pytest.approx(1000 - 310.2, abs=0.05)


# 1 + 9 of 700 mL is 70 mL: exact arithmetic.
def test_a_concentrate_is_scaled_by_its_dilution():
    (measure,) = scaled(shelf.shipped("second-developer"), 700).measures
    assert measure.volume_ml == pytest.approx(70)
    assert "1 + 9 (1 in 10)" in str(measure)


def test_a_poured_volume_is_scaled():
    text = (
        'name = "stop"\nkind = "clearing"\nmakes = "500 mL"\n[[ingredient]]\nwhat = "acid"\nvolume = "20 mL"'
    )
    assert scaled(read(text), 1250).measures[0].volume_ml == pytest.approx(50)


@given(st.sampled_from(list(shelf.NAMES)), st.floats(50, 20_000), st.floats(0.1, 10))
def test_every_amount_is_proportional(name, volume_ml, times):
    at_hand = AtHand(35, "monohydrate")
    once = scaled(shelf.shipped(name), volume_ml, at_hand)
    more = scaled(shelf.shipped(name), volume_ml * times, at_hand)
    for a, b in zip(once.measures, more.measures, strict=True):
        assert (b.mass_g or 0) == pytest.approx((a.mass_g or 0) * times)
        assert (b.volume_ml or 0) == pytest.approx((a.volume_ml or 0) * times)
    assert sum(measure.volume_ml or 0 for measure in more.measures) <= more.volume_ml


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (("name =", "nmae ="), r"my.toml: nmae is not a key here; did you mean 'name'\?"),
        (("mass =", "mas ="), r"my.toml: ingredient 1: mas is not a key here; did you mean 'mass'\?"),
        (('kind = "bleach"', 'kind = "blech"'), r"kind: 'blech' is not known; did you mean 'bleach'\?"),
        (('kind = "bleach"\n', ""), "kind is missing; write for example kind = \"bleach\""),
        (('"20 g"', '"20"'), "ingredient 1: mass: '20' has no unit"),
        (('"20 g"', '"0 g"'), "mass: '0 g' is out of range"),
        (('"20 g"', "20"), "mass: 20 has no unit"),
        (('form = "monohydrate"\n', ""), "form is missing; read the label"),
        (('"monohydrate"', '"dihydrate"'), r"'dihydrate' is not known; did you mean 'monohydrate'\?"),
        (('mass = "20 g"', 'mass = "20 g"\nvolume = "2 mL"'), "give just one of .* mass and volume"),
        (('mass = "20 g"\n', ""), "give just one of .* there is none"),
        (('"10 % w/w"', '"10 %"'), "does not say by what"),
        (('"10 % w/w"', '"60 % w/w"'), "outside the density table"),
        (('"citric acid"', '"soda"'), "only 'citric acid' has one"),
        (('mass = "20 g"', 'strength = "20 % w/w"'), "only 'hydrogen peroxide' is given by its strength"),
        (('makes = "1 L"', 'makes = "0 L"'), "makes: '0 L' is out of range"),
        (('name = "my bleach"', "name = 3"), "name: it must be a text in quotes"),
        (('makes = "1 L"', 'makes = "1 L"\nalso = "x"'), "also: a single value stands where a list"),
    ],
)  # fmt: skip
def test_one_line_for_every_fault(change, says):
    assert change[0] in BLEACH
    with pytest.raises(InputError, match=says) as caught:
        read(BLEACH.replace(*change))
    message = str(caught.value)
    assert message.startswith("my.toml: ")
    assert "\n" not in message


def test_more_poured_than_it_makes():
    text = 'name = "x"\nkind = "fixer"\nmakes = "1 L"\n[[ingredient]]\nwhat = "a"\nvolume = "900 mL"\n'
    with pytest.raises(InputError, match="come to 1400 mL, more than the 1000 mL it makes"):
        read(text + '[[ingredient]]\nwhat = "b"\ndilution = "1 + 1"')


def test_no_ingredient_and_too_many():
    head = 'name = "x"\nkind = "fixer"\nmakes = "1 L"\n'
    with pytest.raises(InputError, match="0 of them; allowed is 1 to 20"):
        read(head + "ingredient = []")
    with pytest.raises(InputError, match="21 of them"):
        read(head + '[[ingredient]]\nwhat = "a"\nmass = "1 g"\n' * 21)


def test_peroxide_needs_its_bottle():
    with pytest.raises(InputError, match="strength of the peroxide bottle is not given"):
        scaled(read(BLEACH), 1000)
    with pytest.raises(InputError, match="more than the stock has"):
        scaled(read(BLEACH), 1000, AtHand(stock_ww=6))
    with pytest.raises(InputError, match="volume wanted: 0 mL"):
        scaled(read(BLEACH), 0, AtHand(stock_ww=30))


def test_an_unknown_formula():
    with pytest.raises(InputError, match=r"formula: 'fixr' is not known; did you mean 'fixer'\?"):
        shelf.shipped("fixr")
