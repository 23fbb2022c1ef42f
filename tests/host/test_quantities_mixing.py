"""Dilutions, strengths and the keys of files: what is read, and how what is ambiguous is refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footlight import quantities as q
from footlight.errors import InputError
from footlight.quantities.table import choice, in_file, inside, keys_of


# Exact arithmetic: a + b holds a/(a + b) of the stock, a in c holds a/c.
@pytest.mark.parametrize(
    ("text", "fraction", "shown"),
    [
        ("1 + 9", 0.1, "1 + 9 (1 in 10)"),
        ("1+9", 0.1, "1 + 9 (1 in 10)"),
        ("1 in 9", 1 / 9, "1 + 8 (1 in 9)"),
        ("2 + 3", 0.4, "1 + 1.5 (1 in 2.5)"),
        ("1 + 0", 1.0, "1 + 0 (1 in 1)"),
        ("1 in 1", 1.0, "1 + 0 (1 in 1)"),
    ],
)
def test_dilutions(text, fraction, shown):
    dilution = q.parse_dilution(text, "dilution")
    assert dilution.fraction == pytest.approx(fraction)
    assert str(dilution) == shown


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("1:9", r"two ways; write '1 \+ 9' .* or '1 in 9'"),
        ("1/9", "not a dilution|two ways"),
        ("10 in 1", "more stock than the whole"),
        ("0 + 9", "no stock"),
        ("1 + 99999999", "out of range"),
        ("1 + 1/0", "out of range"),
        ("1 - 9", "not a dilution"),
        ("nine", "not a dilution"),
        (9, "has no unit"),
        ("", "nothing is written"),
    ],
)
def test_bad_dilutions(text, says):
    with pytest.raises(InputError, match=says) as caught:
        q.parse_dilution(text, "dilution")
    assert "\n" not in str(caught.value)
    assert str(caught.value).startswith("dilution: ")


@given(st.floats(0.01, 100), st.floats(0, 100))
def test_plus_and_in_agree(stock, water):
    plus = q.parse_dilution(f"{stock:.4f} + {water:.4f}", "d")
    whole = round(stock, 4) + round(water, 4)
    within = q.parse_dilution(f"{stock:.4f} in {whole:.4f}", "d")
    assert plus.fraction == pytest.approx(within.fraction, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "value", "basis"),
    [
        ("35 % w/w", 35, "w/w"),
        ("35% w/w", 35, "w/w"),
        ("30 % w/v", 30, "w/v"),
        ("30%w/v", 30, "w/v"),
        ("110 vol", 110, "vol"),
        ("20 volumes", 20, "vol"),
    ],
)
def test_strengths(text, value, basis):
    assert q.parse_strength(text, "stock") == q.Strength(value, basis)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("30 %", "does not say by what"),
        ("30", "does not say by what"),
        ("101 % w/w", "out of range; allowed is above 0 up to 100 % w/w"),
        ("0 % w/w", "out of range"),
        ("-3 % w/w", "out of range"),
        ("30 % v/v", "not a strength"),
        ("strong", "not a strength"),
        (30, "has no unit"),
    ],
)
def test_bad_strengths(text, says):
    with pytest.raises(InputError, match=says) as caught:
        q.parse_strength(text, "stock")
    assert str(caught.value).startswith("stock: ")


def test_keys_are_checked_with_a_suggestion():
    where = inside(in_file("a.toml"), "lens 'A'")
    assert keys_of({"focal": 1}, ["focal"], where, {"focal": '"150 mm"'}) == {"focal": 1}
    with pytest.raises(
        InputError, match=r"a.toml: lens 'A': fokal is not a key here; did you mean 'focal'\?"
    ):
        keys_of({"fokal": 1}, ["focal", "stops"], where)
    with pytest.raises(InputError, match=r"lens 'A': focal is missing; write for example focal = \"150 mm\""):
        keys_of({}, ["focal"], where, {"focal": '"150 mm"'})
    with pytest.raises(InputError, match="a single value stands"):
        keys_of(3, ["focal"], where)
    with pytest.raises(InputError, match=r"kind: 'fix' is not known; did you mean 'fixer'\?"):
        choice("fix", ["fixer", "bleach"], "kind")
    with pytest.raises(InputError, match="kind: '3' is not known; there is fixer, bleach"):
        choice(3, ["fixer", "bleach"], "kind")


def test_a_key_cannot_speak_to_the_terminal():
    with pytest.raises(InputError) as caught:
        keys_of({"\x1b[2J": 1}, ["focal"], in_file("a.toml"))
    assert "\x1b" not in str(caught.value)
