"""Bellows, true f-numbers, lens cards and the camera file."""

import math
import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footlight.camera import extension as ext
from footlight.camera.lens import Lens, card
from footlight.camera.page import page, scale
from footlight.camera.settings import settings_of
from footlight.errors import InputError
from footlight.quantities import FStop, parse_stop
from footlight.quantities.table import in_file


def stop(text: str) -> FStop:
    return parse_stop(text, "stop")


# US Army correspondence course SS0512: 12 in lens at 18 in draw, 2.25; 8 s → 18 s.
def test_bellows_factor_from_draw():
    out = ext.from_draw(12 * 25.4, 18 * 25.4)
    assert out.factor == pytest.approx(2.25)
    assert 8 * out.factor == pytest.approx(18)


# Same source: image/object 8/12, (1 + 0.667)² = 2.778 (its text prints 2.8).
def test_bellows_factor_from_sizes():
    assert ext.from_sizes(8, 12).factor == pytest.approx(2.778, abs=5e-4)


# f = 150, v = 300, marked f/11: true f-number 22.63 (22 if 11 is literal), factor 4, 2 stops. Exact.
def test_life_size():
    out = ext.from_draw(150, 300)
    assert (out.factor, out.stops) == pytest.approx((4, 2))
    assert out.true_stop(stop("f/11")).exact_value == pytest.approx(22.627, abs=5e-4)
    assert out.true_stop(stop("f/11 literal")).exact_value == pytest.approx(22)


# Common practice: lens-to-film distance over diameter, for a pupil ratio near 1.
@given(st.floats(50, 600), st.floats(1, 3), st.floats(1, 40))
def test_true_f_number_is_draw_over_diameter(focal, longer, diameter):
    found = ext.opening(ext.from_draw(focal, focal * longer), focal, diameter)
    assert found.true.exact_value == pytest.approx(focal * longer / diameter)


# N_eff = N(1 + m/P): optics texts, from memory. At m = 1 and P = 2, 1.5² = 2.25. By hand.
def test_pupil_ratio():
    assert ext.from_draw(150, 300, 2.0).factor == pytest.approx(2.25)
    assert ext.from_draw(150, 300, 0.5).factor == pytest.approx(9)


@given(st.floats(50, 600), st.floats(0.05, 3), st.floats(0.3, 3))
def test_draw_and_sizes_agree(focal, m, pupils):
    by_draw = ext.from_draw(focal, focal * (1 + m), pupils)
    assert ext.from_sizes(100 * m, 100, pupils).factor == pytest.approx(by_draw.factor)


# Thin lens: 1/f = 1/u + 1/v.
@given(st.floats(50, 600), st.floats(0.01, 5))
def test_the_thin_lens(focal, m):
    u, v = ext.object_distance_mm(focal, m), focal * (1 + m)
    assert 1 / u + 1 / v == pytest.approx(1 / focal)
    assert u + v >= 4 * focal * (1 - 1e-9)


def test_infinity():
    assert ext.INFINITY.factor == 1
    assert math.isinf(ext.object_distance_mm(150, 0))
    assert ext.from_draw(150, 149).factor == 1


@given(st.floats(100, 400), st.floats(0.2, 2), st.floats(0.5, 2))
def test_doubt_of_the_draw_is_its_derivative(focal, m, pupils):
    draw = focal * (1 + m)
    out = ext.from_draw(focal, draw, pupils, off_mm=0.1)
    assert out.doubt is not None
    above, below = (ext.from_draw(focal, draw + d, pupils).stops for d in (0.1, -0.1))
    assert out.doubt.stops == pytest.approx((above - below) / 2, rel=1e-3)


@given(st.floats(5, 50), st.floats(5, 50), st.floats(0.5, 2))
def test_doubt_of_the_sizes_is_its_derivative(image, subject, pupils):
    out = ext.from_sizes(image, subject, pupils)
    assert out.doubt is not None
    above, below = (ext.from_sizes(image * (1 + d), subject, pupils).stops for d in (0.02, -0.02))
    assert out.doubt.stops == pytest.approx((above - below) / 2, rel=0.01)


# 0.3 mm of 13.6 mm: 2·0.3/13.6/ln 2 = 0.0636 stop. By hand.
def test_doubt_of_the_diameter():
    found = ext.opening(ext.INFINITY, 150, 13.6)
    assert found.diameter_doubt.stops == pytest.approx(0.0636, abs=5e-5)
    assert ext.opening(ext.INFINITY, 150, 13.6, 0.6).diameter_doubt.stops == pytest.approx(0.1273, abs=5e-5)


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: ext.from_draw(0, 300), "focal length: 0 mm must be more than zero"),
        (lambda: ext.from_draw(150, -1), "draw: -1 mm must be more than zero"),
        (lambda: ext.from_draw(150, 100), "draw: 100 mm is shorter than the focal length"),
        (lambda: ext.from_draw(150, 150_000), "magnification: 999 is out of range"),
        (lambda: ext.from_draw(150, 300, 9), "pupil ratio: 9 is out of range; allowed is 0.2 to 5"),
        (lambda: ext.from_sizes(0, 5), "image: 0 mm must be more than zero"),
        (lambda: ext.from_sizes(5, 0), "object: 0 mm must be more than zero"),
        (lambda: ext.opening(ext.INFINITY, 150, 0), "opening: 0 mm must be more than zero"),
        (lambda: ext.opening(ext.INFINITY, 150, 400), "is f/0.375; allowed is f/0.5 to f/1024"),
    ],
)
def test_what_is_refused(ask, says):
    with pytest.raises(InputError, match=says) as caught:
        ask()
    assert "\n" not in str(caught.value)


LENS = Lens("old lens", 210, (stop("f/8"), stop("f/11")), (210, 420), 1.0, ((stop("f/8"), 25.9),))


# f/8 measured 25.9 mm: 210/25.9 = 8.108; at 420 mm 16.216. f/11 computed 210/11.314 = 18.56 mm. By hand.
def test_a_card_by_hand():
    found = card(LENS)
    eight, eleven = found.rows
    assert (eight.measured, eleven.measured) == (True, False)
    assert [true.exact_value for true in eight.true] == pytest.approx([8.108, 16.216], abs=5e-4)
    assert eleven.diameter_mm == pytest.approx(18.56, abs=0.005)
    assert [column.extension.factor for column in found.columns] == pytest.approx([1, 4])
    assert found.columns[1].distance_mm == pytest.approx(420)


def test_usual_draws_where_none_are_given():
    found = card(Lens("x", 150, (stop("f/8"),)))
    assert found.columns[0].extension.factor == 1
    assert found.columns[-1].draw_mm == pytest.approx(300)
    assert found.as_dict()["draws"][0]["lens_to_subject_mm"] is None  # pyright: ignore[reportIndexIssue]


@given(st.floats(50, 600), st.lists(st.floats(1, 3), min_size=1, max_size=8))
def test_true_stops_only_grow_with_draw(focal, longer):
    found = card(Lens("x", focal, (stop("f/8"),), tuple(sorted(focal * times for times in longer))))
    values = [true.exact_value for true in found.rows[0].true]
    assert values == sorted(values)
    assert values[0] >= 8 - 1e-9


def test_the_page_is_self_contained_and_escaped():
    html = page([card(Lens("<b>&", 150, (stop("f/8"),))), card(LENS)])
    assert "&lt;b&gt;&amp;" in html
    assert "<b>&" not in html
    for outside in ("http", "src=", "<script", "<link", "url("):
        assert outside not in html
    assert "f/16.2" in html
    assert "25.9*" in html
    assert html.count("<section>") == 2


def test_many_draws_are_set_smaller():
    many = card(Lens("x", 100, (stop("f/6.3 literal"),), tuple(range(100, 180, 10))))
    html = page([many])
    assert '<section class="dense">' in html
    assert "literal" not in html


@pytest.mark.parametrize(("m", "text"), [(0, "infinity"), (0.25, "1 : 4"), (1, "1 : 1"), (2, "2 : 1")])
def test_scale(m, text):
    assert scale(m) == text


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: Lens("x", 150, ()), "lens 'x': no stops"),
        (lambda: Lens("x", 150, (stop("f/8"),), tuple(range(150, 160))), "10 draws; a card holds 8"),
        (
            lambda: Lens("x", 150, (stop("f/8"),), (), 1, ((stop("f/4"), 20.0),)),
            "f/4 was measured but",
        ),
    ],
)
def test_lenses_that_cannot_be(make, says):
    with pytest.raises(InputError, match=says):
        make()


FILE = """
[lens."old lens"]
focal = "210 mm"
stops = ["f/8", "f/11"]
draws = ["210 mm", "42 cm"]
openings = { "f/8" = "25.9 mm" }

[light."open shade"]
more = "-1/3 stop"
contrast = -10
known = "measured"
off = "0.1 stop"

[filter.yellow]
more = "1 1/3 stop"
"""


def read(text: str):
    return settings_of(tomllib.loads(text), in_file("camera.toml"))


def test_the_camera_file():
    found = read(FILE)
    assert found.lens("old lens") == LENS
    shade, yellow = found.light("open shade"), found.filter("yellow")
    assert (shade.more_stops, shade.range_r, shade.measured, shade.off_stops) == pytest.approx(
        (-1 / 3, -10, True, 0.1)
    )
    assert (yellow.kind, yellow.measured, yellow.off_stops) == ("filter", False, None)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (("focal =", "fokal ="), r"lens 'old lens': fokal is not a key here; did you mean 'focal'\?"),
        (('focal = "210 mm"\n', ""), "lens 'old lens': focal is missing"),
        (('"210 mm"\nstops', '"210"\nstops'), "focal: '210' has no unit"),
        (('["f/8", "f/11"]', '["f/8", "f/8"]'), "a stop is written twice"),
        (('["f/8", "f/11"]', '["f/0.4"]'), "'f/0.4' is out of range"),
        (('["f/8", "f/11"]', '"f/8"'), "stops: write a list"),
        (('{ "f/8" = "25.9 mm" }', '"25.9 mm"'), "openings: write mark and diameter"),
        (('{ "f/8" = "25.9 mm" }', '{ "f/4" = "25.9 mm" }'), "f/4 was measured but is not among its stops"),
        (("[filter.yellow]", "[filtre.yellow]"), r"camera.toml: filtre is not .* did you mean 'filter'\?"),
        (('known = "measured"', 'known = "guess"'), "known: 'guess' is not known; there is stated, measured"),
        (("contrast = -10", "contrast = -900"), "contrast: '-900' is out of range"),
        (('more = "1 1/3 stop"', ""), "filter 'yellow': more is missing"),
        (("[filter.yellow]\nmore", "[filter]\nmore"), "filter 'more': a single value stands"),
    ],
)  # fmt: skip
def test_one_line_for_every_fault(change, says):
    assert change[0] in FILE
    with pytest.raises(InputError, match=says) as caught:
        read(FILE.replace(*change))
    assert "\n" not in str(caught.value)


def test_names_that_are_not_there():
    with pytest.raises(
        InputError, match=r"'open shad' is not in the camera file; did you mean 'open shade'\?"
    ):
        read(FILE).light("open shad")
    with pytest.raises(InputError, match="filter 'red': there is none in the camera file"):
        read("").filter("red")
    with pytest.raises(InputError, match=r"lens: write each under its own name"):
        read("lens = 3")
