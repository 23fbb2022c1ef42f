"""The reader of written quantities: what it takes, what it refuses and how it says so."""

import math

import pint
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from footlight import quantities as q
from footlight.errors import InputError
from footlight.quantities.fstop import MARKS

WITNESS = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("text", "expected_ms"),
    [
        ("1:30", 90_000),
        ("90 s", 90_000),
        ("90s", 90_000),
        ("1 min 30 s", 90_000),
        ("1min30s", 90_000),
        ("1 1/2 min", 90_000),
        ("250 ms", 250),
        ("6.5 s", 6_500),
        (".5 s", 500),
        ("1/30 s", 33),
        ("0:06.5", 6_500),
        ("1:02:03", 3_723_000),
        ("2 h", 7_200_000),
        ("90:00", 5_400_000),
        ("0 s", 0),
    ],
)
def test_durations(text, expected_ms):
    assert q.parse_duration_ms(text, "bath") == expected_ms


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("90", "has no unit"),
        (90, "has no unit"),
        (None, "has no unit"),
        ("", "nothing is written"),
        ("1:5", "two digits"),
        ("1:60", "60 or more"),
        ("1:60:00", "60 or more"),
        ("-5 s", "negative"),
        ("6,5 s", "comma"),
        ("5 m", "not a duration"),
        ("5 mm", "not a duration"),
        ("30 s 1 min", "not a duration"),
        ("1 s 2 s", "not a duration"),
        ("nan s", "not a duration"),
        ("inf s", "not a duration"),
        ("1e3 s", "not a duration"),
        ("1/0 s", "out of range"),
        ("1000 h", "out of range"),
        ("0.0001 s", "shorter than a millisecond"),
    ],
)
def test_bad_durations_name_subject_and_example(text, says):
    with pytest.raises(InputError, match=says) as caught:
        q.parse_duration_ms(text, "step 3 'bleach': time")
    message = str(caught.value)
    assert message.startswith("step 3 'bleach': time: ")
    assert "\n" not in message
    assert "example" in message or "allowed" in message


def test_duration_limits_are_named_in_the_message():
    with pytest.raises(InputError, match=r"'2 s' is out of range; allowed is 0.05 s to 1.0 s"):
        q.parse_duration_ms("2 s", "lift", least_ms=50, most_ms=1000)


@given(st.integers(0, 100 * 3600 * 1000))
def test_durations_are_read_back_exactly(duration_ms):
    assert q.parse_duration_ms(q.format_duration(duration_ms), "t") == duration_ms


@pytest.mark.parametrize(
    ("seconds", "text"),
    [
        (10, "10.0 s"),
        (6, "6.0 s"),
        (5.0397, "5.04 s"),
        (116.9, "117 s"),
        (0.125, "0.125 s"),
        (0.0556, "0.0556 s"),
    ]
    + [(99.96, "100 s"), (0, "0.0 s"), (9.9896, "10.0 s"), (10.0794, "10.1 s")],
)
def test_seconds_are_printed_as_exactly_as_they_are_known(seconds, text):
    assert q.format_seconds(seconds) == text


@given(st.floats(0.01, 9999))
def test_printed_seconds_are_within_a_hundredth_of_a_stop(seconds):
    read = q.parse_seconds(q.format_seconds(seconds), "t")
    assert abs(math.log2(read / seconds)) < 0.01


READERS = [
    (q.parse_length_mm, [("620 mm", 620), ("62 cm", 620), ("0.62 m", 620), ("24.4 in", 619.76)]),
    (q.parse_length_mm, [('8"', 203.2), ("8 1/2 in", 215.9), ("1 ft", 304.8)]),
    (q.parse_volume_ml, [("1 L", 1000), ("250 ml", 250), ("250 mL", 250), ("1.5 l", 1500), ("3 dl", 300)]),
    (q.parse_mass_g, [("25 g", 25), ("1.2 kg", 1200), ("500 mg", 0.5)]),
    (q.parse_temperature_c, [("20 °C", 20), ("68 °F", 20), ("20C", 20), ("-10 °C", -10), ("32 F", 0)]),
    (q.parse_lux, [("12 lx", 12), ("12 lux", 12), ("1 fc", 10.7639)]),
    (q.parse_lux_seconds, [("15 lx s", 15), ("15 lx·s", 15), ("15 lux-seconds", 15)]),
    (q.parse_luminance_cd_m2, [("500 cd/m2", 500), ("500 cd/m²", 500)]),
    (q.parse_percent, [("10 %", 10), ("0.5%", 0.5), ("100 %", 100), ("0 %", 0)]),
    (q.parse_volts, [("230 V", 230)]),
    (q.parse_density_d, [("0.04 D", 0.04)]),
]  # fmt: skip


@pytest.mark.parametrize(
    ("reader", "text", "expected"),
    [(reader, text, value) for reader, rows in READERS for text, value in rows],
)
def test_plain_quantities(reader, text, expected):
    assert reader(text, "x") == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize("reader", [reader for reader, _ in READERS])
@pytest.mark.parametrize(
    "text", ["", "12", 12, 3.5, True, None, "mm", "12 furlongs", "nan", "inf", "1e400 mm", "1,5 mm"]
)
def test_every_reader_refuses_with_one_line_and_an_example(reader, text):
    with pytest.raises(InputError) as caught:
        reader(text, "key height")
    assert str(caught.value).startswith("key height: ")
    assert "example" in str(caught.value)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    ("reader", "text"),
    [
        (q.parse_length_mm, "0 mm"),
        (q.parse_length_mm, "-5 mm"),
        (q.parse_length_mm, "9999 m"),
        (q.parse_length_mm, "1/0 mm"),
        (q.parse_volume_ml, "0 L"),
        (q.parse_mass_g, "-1 g"),
        (q.parse_temperature_c, "200 °C"),
        (q.parse_lux, "0 lx"),
        (q.parse_percent, "101 %"),
        (q.parse_percent, "-1 %"),
    ],
)
def test_absurd_values_are_out_of_range_and_the_range_is_said(reader, text):
    with pytest.raises(InputError, match=r"out of range; allowed is .* to .*"):
        reader(text, "x")


@pytest.mark.parametrize(("ours", "theirs"), [("in", "inch"), ("ft", "foot"), ("cm", "cm"), ("m", "m")])
@given(number=st.floats(0.1, 100).map(lambda value: round(value, 3)))
def test_lengths_agree_with_pint(ours, theirs, number):
    expected_mm = WITNESS.Quantity(number, theirs).to("mm").magnitude
    assert q.parse_length_mm(f"{number:.3f} {ours}", "x") == pytest.approx(expected_mm)


@given(st.floats(-4, 230).map(lambda value: round(value, 2)))
def test_fahrenheit_agrees_with_pint(degrees_f):
    expected_c = WITNESS.Quantity(degrees_f, "degF").to("degC").magnitude
    assert q.parse_temperature_c(f"{degrees_f:.2f} °F", "x") == pytest.approx(expected_c, abs=1e-9)


# ISO 517: the f-number series is the powers of √2; exact values by arithmetic.
@pytest.mark.parametrize(
    ("text", "exact"),
    [
        ("f/5.6", 5.6569),
        ("f/11", 11.3137),
        ("f/22", 22.6274),
        ("f/45", 45.2548),
        ("f/90", 90.5097),
        ("f/8", 8.0),
        ("f/9", 8.9797),
        ("f/10", 10.0794),
        ("f/9.5", 9.5137),
        ("f/13", 12.6992),
        ("f/11 1/2", 13.4543),
        ("f/11 +1/3", 12.6992),
        ("f/11 -1/3", 10.0794),
        ("F11", 11.3137),
        ("f 11", 11.3137),
        ("f/11 ½", 13.4543),
        ("f/11 literal", 11.0),
        ("f/7.7 literal", 7.7),
    ],
)
def test_marked_stops_are_exact_powers_of_root_two(text, exact):
    assert q.parse_stop(text, "stop").exact_value == pytest.approx(exact, abs=5e-5)


# What the engraving rounds away, in stops: by arithmetic.
@pytest.mark.parametrize(
    ("mark", "stops"), [("1.4", 0.029), ("2.8", 0.029), ("5.6", 0.029), ("11", 0.081), ("22", 0.081)]
)
def test_marked_against_exact(mark, stops):
    marked, literal = q.parse_stop(f"f/{mark}", "s"), q.parse_stop(f"f/{mark} literal", "s")
    assert literal.stops_to(marked) == pytest.approx(stops, abs=5e-4)


def test_every_engraved_number_is_close_to_its_exact_value():
    assert len(MARKS) > 60
    for mark, place in MARKS.items():
        assert abs(2 * math.log2(mark) - place) < 0.105, mark


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("11", "not an f-number"),
        (11, "has no unit"),
        ("f/0.4", "out of range"),
        ("f/0", "out of range"),
        ("f/-8", "not an f-number"),
        ("f/nan", "not an f-number"),
        ("f/99999", "out of range"),
        ("f/12", "write f/11 or f/13, or 'f/12 literal'"),
        ("f/11 3", "more than a stop"),
        ("f/11 1/0", "more than a stop"),
    ],
)
def test_bad_stops(text, says):
    with pytest.raises(InputError, match=says):
        q.parse_stop(text, "setup 'A': stop")


@given(st.sampled_from(sorted(MARKS)), st.sampled_from([0, 1 / 2, 1 / 3, -1 / 3, 2 / 3, 1 / 4, -1 / 2, 0.37]))
def test_stops_are_read_back(mark, offset):
    stop = q.FStop(mark, 2 ** ((MARKS[mark] + offset) / 2), offset_stops=offset)
    assert q.parse_stop(q.format_stop(stop), "s").exact_value == pytest.approx(stop.exact_value)


@given(st.floats(0.8, 500))
def test_the_nearest_third_is_within_a_sixth_of_a_stop(f_number):
    nearest = q.FStop.nearest(f_number)
    if 1 <= f_number <= 80:
        assert abs(nearest.stops_to(q.FStop.of_number(f_number))) <= 1 / 6 + 1e-9


@pytest.mark.parametrize(
    ("text", "stops"),
    [("1/3 stop", 1 / 3), ("+1 1/3", 4 / 3), ("0.5", 0.5), ("-2/3 stops", -2 / 3), ("−1", -1), ("+ 1/2", 0.5)]
    + [("⅓", 1 / 3), ("1 ⅔ stop", 5 / 3), ("0", 0), (0.5, 0.5), (-1, -1)],
)
def test_stop_differences(text, stops):
    assert q.parse_stops(text, "step") == pytest.approx(stops)


@pytest.mark.parametrize(
    "text", ["", "a bit", "1 s", "nan", "99", "1/0", float("nan"), True, "1/3 stop more"]
)
def test_bad_stop_differences(text):
    with pytest.raises(InputError, match="step: "):
        q.parse_stops(text, "step")


@given(st.integers(-12, 12), st.sampled_from([1, 2, 3]))
def test_stop_differences_are_read_back(over, under):
    assert q.parse_stops(q.format_stops(over / under), "s") == pytest.approx(over / under)


def test_stop_differences_off_the_grid_are_decimal():
    assert q.format_stops(0.42) == "+0.42 stop"
    assert q.format_stops(1.42, signed=False) == "1.42 stop"


# Sheet sizes: inch = 25.4 mm, by arithmetic.
@pytest.mark.parametrize(
    ("text", "width_mm", "height_mm", "area_cm2", "sheets"),
    [
        ("4x5", 101.6, 127.0, 129.03, 0.25),
        ("5x7", 127.0, 177.8, 225.81, 0.4375),
        ("8x10", 203.2, 254.0, 516.13, 1),
        ("10x8", 254.0, 203.2, 516.13, 1),
        ("11x14", 279.4, 355.6, 993.55, 1.925),
        ("8 x 10 in", 203.2, 254.0, 516.13, 1),
        ("203.2 × 254 mm", 203.2, 254.0, 516.13, 1),
        ("20.32 x 25.4 cm", 203.2, 254.0, 516.13, 1),
    ],
)
def test_sheets(text, width_mm, height_mm, area_cm2, sheets):
    sheet = q.parse_sheet(text, "sheet")
    assert (sheet.width_mm, sheet.height_mm) == pytest.approx((width_mm, height_mm))
    assert sheet.area_cm2 == pytest.approx(area_cm2, abs=0.005)
    assert sheet.as_8x10 == pytest.approx(sheets, abs=5e-5)


@pytest.mark.parametrize(
    "text", ["", "8", "8x", "18x24", "8x10 furlongs", "0x0 mm", "8 in x 10 mm", "9x9 m", 8, "-8x10"]
)
def test_bad_sheets(text):
    with pytest.raises(InputError, match=r"sheet: .*(example|nothing)"):
        q.parse_sheet(text, "sheet")


@pytest.mark.parametrize(("written", "value"), [("4", 4), (4, 4), (2.5, 2.5), ("1/4", 0.25)])
def test_plain_numbers(written, value):
    assert q.parse_number(written, "EI") == value


@pytest.mark.parametrize("written", ["", "4 s", "four", float("inf"), -1, "nan", True])
def test_bad_plain_numbers(written):
    with pytest.raises(InputError, match="EI: "):
        q.parse_number(written, "EI")


def test_formats():
    assert q.format_length_mm(620.4) == "620 mm"
    assert q.format_length_mm(2.07) == "2.1 mm"
    assert q.format_volume_ml(310.2) == "310 mL"
    assert q.format_volume_ml(12_500) == "12.5 L"
    assert q.format_temperature_c(20.04) == "20 °C"
    assert q.format_percent(10.73) == "10.7 %"
    assert q.format_sheet(q.parse_sheet("8x10", "s")) == "8x10 (203 x 254 mm)"
    assert q.format_sheet(q.parse_sheet("203 x 254 mm", "s")) == "203 x 254 mm"


EVERY_READER = [reader for reader, _ in READERS] + [
    q.parse_duration_ms,
    q.parse_seconds,
    q.parse_stop,
    q.parse_stops,
    q.parse_sheet,
    q.parse_number,
]
# Text that looks like a quantity, and text that looks like nothing.
NEARLY = st.from_regex(
    r"[+\-−]?[0-9./, :xX½⅓fF]{1,12} ?(mm|s|min|stop|lx|%|literal|[a-z]{0,3})", fullmatch=True
)
ANYTHING = (
    st.text()
    | NEARLY
    | st.integers()
    | st.floats()
    | st.none()
    | st.booleans()
    | st.lists(st.text(), max_size=2)
)


@pytest.mark.parametrize("reader", EVERY_READER)
@given(written=ANYTHING)
@example(written="9" * 5000 + "/3 s")
@example(written="9" * 5000 + " mm")
@example(written="1/3 " * 50)
def test_whatever_is_written_is_read_or_refused_in_one_line(reader, written):
    try:
        value = reader(written, "key")
    except InputError as error:
        assert str(error).startswith("key: ")
        return
    assert not isinstance(value, float) or math.isfinite(value)


@pytest.mark.parametrize(
    ("hours", "said"), [(0, "0.0 h"), (3.21, "3.2 h"), (47.9, "47.9 h"), (48, "2 days"), (745, "31 days")]
)
def test_an_age_is_said_in_hours_and_then_in_days(hours: float, said: str):
    assert q.format_age_h(hours) == said
