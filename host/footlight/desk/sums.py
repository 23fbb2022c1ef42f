"""What can be reckoned: what is asked, an example of it, and which action or sum answers."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, get_args

from footlight import quantities as q
from footlight.actions.fill_tray import to_depth, volume_for, with_volume
from footlight.actions.measure_bath import measure_bath
from footlight.actions.mix_stock import dilute, mix_peroxide, one_strength, pour_together
from footlight.camera import meter
from footlight.camera.exposure import time_for
from footlight.chemistry.capacity import TRADE, Limits, Use, left
from footlight.chemistry.citric import FORMS, converted_g, spoons
from footlight.chemistry.dilution import of_amounts
from footlight.chemistry.hazards import clashes_between, hazards_for
from footlight.chemistry.scaled import AtHand
from footlight.desk.pages import Field, Form
from footlight.errors import field as asked
from footlight.kinds import FormulaKind
from footlight.light.bigger import same_exposure
from footlight.light.inverse import choices, height_for_time, outcome, stop_for_time
from footlight.quantities.table import choice
from footlight.views import camera_sums, mixes
from footlight.views.exposures import bigger_lines, choice_lines, exposure_lines
from footlight.views.hazards import ToldHazards, told_once
from footlight.written import camera as camera_words
from footlight.written import changes
from footlight.written import light as light_words
from footlight.written.mixes import depth_or_volume, part, peroxide_of, substance
from footlight.written.mixes import formula as read_formula


@dataclass(frozen=True)
class Answer:
    """lines: the answer first, then how it came about. notes: what is to be minded. safety: what the stuff
    does to you."""

    lines: list[str]
    notes: list[str] = field(default_factory=list)
    safety: list[ToldHazards] = field(default_factory=list)


@dataclass(frozen=True)
class Sum:
    """One kind of sum. name: in its address. command: the one that says the same. more: fields that are
    seldom needed."""

    name: str
    title: str
    command: str
    fields: tuple[Field, ...]
    reckon: Callable[[Form], Answer]
    more: tuple[Field, ...] = ()

    @property
    def everything(self) -> tuple[Field, ...]:
        """All fields."""
        return self.fields + self.more


FOUND = Field(
    "found", "Exposure found good", "time, height, stop, lens; commas between", example="6 s, 620 mm, f/11"
)
NEW = Field("new", "What changes", "height, stop, lens", example="800 mm")
CLICKS = Field(
    "clicks", "Stops that the lens has", kind="choice", choices=tuple((name, name) for name in changes.CLICKS)
)
CHANGE = (
    Field("more", "Extra light wanted", "'1/3 stop', '-0.5'"),
    Field("bridge", "Bridging strip", "how much longer the new lamp or filter needs, in stops"),
    Field("p", "Measured exponent of long exposures", "as '0.93'"),
    Field("offs", "How well it is known", "one a line: 'height 5 mm', 'dead 20 ms'", kind="area"),
)
RACKED = (
    Field("lens", "Focal length", "'150 mm'"),
    Field("draw", "Draw", "lens board to film: '300 mm'"),
    Field("image", "Size on the ground glass", "of something"),
    Field("subject", "Its own size"),
    Field("pupils", "Pupil ratio", "without it 1"),
)
METER = (
    Field("c", "The meter’s constant C", "without it 250"),
    Field("k", "The meter’s constant K", "without it 12.5"),
)
VOLUME = Field("volume", "Volume", "or a tray below", example="1 L")
TRAY = (
    Field("tray", "Tray instead of a volume", "inner size: '9.5x12 in'"),
    Field("depth", "How deep in it", "without it 12 mm"),
    Field("rim", "Height of its rim", "what does not fit is refused"),
)
LEFT = Field("left", "What is left in the bottle", "instead of a volume: '75 mL'")


def _or_none(form: Form, name: str) -> str | None:
    return form.value(name) or None


def _lines(form: Form, name: str) -> tuple[str, ...]:
    return tuple(line.strip() for line in form.value(name).splitlines() if line.strip())


def _start(form: Form) -> changes.Start:
    return changes.start(
        form.value("found"),
        setups=changes.SETUPS_FILE,
        more=_or_none(form, "more"),
        bridge=_or_none(form, "bridge"),
        p=_or_none(form, "p"),
        p_off="0.02",
        offs=_lines(form, "offs"),
        head=None,
        relay="contacts",
        mains="50",
    )


def _parts(form: Form) -> int:
    return changes.CLICKS[choice(form.value("clicks") or "third", list(changes.CLICKS), asked("clicks"))]


def _noted(lines: list[str]) -> Answer:
    """What a view says line by line; its notes are those behind a mark."""
    return Answer(
        [line for line in lines if not line.startswith("! ")],
        list(dict.fromkeys(line[2:] for line in lines if line.startswith("! "))),
    )


def _time(form: Form) -> Answer:
    seconds, at, change = _start(form)
    to = light_words.changed(at, form.value("new"), asked("new"))
    return _noted(choice_lines(choices(seconds, at, to, change, parts=_parts(form))))


def _stop(form: Form) -> Answer:
    seconds, at, change = _start(form)
    to = light_words.changed(at, form.value("new"), asked("new"))
    wanted_s = q.parse_seconds(form.value("wanted"), asked("wanted")) if form.value("wanted") else seconds
    return _noted(exposure_lines(stop_for_time(seconds, at, to, wanted_s, change, parts=_parts(form))))


def _height(form: Form) -> Answer:
    seconds, at, change = _start(form)
    to = light_words.changed(at, form.value("new"), asked("new")) if form.value("new") else at
    wanted_s = q.parse_seconds(form.value("wanted"), asked("wanted"))
    return _noted(exposure_lines(height_for_time(seconds, at, to, wanted_s, change)))


def _given(form: Form) -> Answer:
    seconds, at, change = _start(form)
    to = light_words.changed(at, form.value("new"), asked("new"))
    said = outcome(seconds, at, to, q.parse_seconds(form.value("given"), asked("given")), change)
    return Answer([said.summary, f"needed: {said.needed.arithmetic}"], list(said.needed.notes))


def _bigger(form: Form) -> Answer:
    seconds, at, change = _start(form)
    within = _or_none(form, "within")
    answer = same_exposure(
        seconds,
        at,
        q.parse_sheet(form.value("old"), asked("old")),
        q.parse_sheet(form.value("new"), asked("new")),
        tolerance_stops=q.parse_stops(within, asked("within")) if within else None,
        change=change,
    )
    return _noted(bigger_lines(answer))


def _constants(form: Form) -> tuple[float, float]:
    c, k = form.value("c"), form.value("k")
    return (
        q.parse_number(c, asked("c")) if c else meter.C_USUAL,
        q.parse_number(k, asked("k")) if k else meter.K_USUAL,
    )


def _racked(form: Form) -> dict[str, Any]:
    names = ("lens", "draw", "image", "subject")
    return {name: _or_none(form, name) for name in names} | {"pupils": form.value("pupils") or "1"}


def _camera_time(form: Form) -> Answer:
    off = camera_words.tolerances(_lines(form, "offs"))
    found = time_for(
        camera_words.reading(form.value("reading"), asked("reading"), *_constants(form)),
        q.parse_stop(form.value("stop"), asked("stop")),
        camera_words.film(
            form.value("ei"),
            form.value("ei_time") or "1 s",
            _or_none(form, "p"),
            "0.02",
            _or_none(form, "iso_range"),
        ),
        extension=camera_words.extension(**_racked(form), off_mm=off.draw_mm),
        conditions=camera_words.conditions(None, _or_none(form, "light"), _or_none(form, "filter")),
        tolerances=off,
    )
    return Answer(camera_sums.time_lines(found), list(found.notes))


def _bellows(form: Form) -> Answer:
    out = camera_words.extension(**_racked(form), off_mm=camera_words.tolerances(()).draw_mm)
    if out.doubt is None:
        raise camera_sums.not_racked()
    stop, seconds = form.value("stop"), form.value("seconds")
    marked = q.parse_stop(stop, asked("stop")) if stop else None
    plain_s = q.parse_seconds(seconds, asked("seconds"), least_s=0.001) if seconds else None
    return Answer(camera_sums.bellows_lines(out, out.doubt, marked, plain_s))


def _scene(form: Form) -> Answer:
    constants = _constants(form)
    scene = camera_words.reading(form.value("reading"), asked("reading"), *constants)
    return Answer(camera_sums.scene_lines(scene, *constants))


def _volume(form: Form):
    volume, tray, rim = form.value("volume"), form.value("tray"), form.value("rim")
    return volume_for(
        q.parse_volume_ml(volume, asked("volume")) if volume and not tray else None,
        q.parse_sheet(tray, asked("tray")) if tray else None,
        q.parse_length_mm(form.value("depth") or "12 mm", asked("depth")),
        q.parse_length_mm(rim, asked("rim")) if rim else None,
    )


def _volume_or_left(form: Form):
    """(volume asked for, what is left [mL]): what is left in the bottle decides where it is written."""
    left_text = form.value("left")
    if left_text:
        return None, q.parse_volume_ml(left_text, asked("left"))
    return _volume(form), None


def _dilute(form: Form) -> Answer:
    written = form.value("dilution")
    parts = q.parse_dilution(written, asked("dilution"))
    diluted = dilute(parts, *_volume_or_left(form), form.value("stock") or "stock", as_plus="+" in written)
    return Answer(mixes.diluted_lines(diluted), list(diluted.notes), told_once([diluted.hazards]))


def _peroxide(form: Form) -> Answer:
    bottle = peroxide_of(form.value("stock"), asked("stock"))
    made = peroxide_of(form.value("wanted"), asked("wanted"))
    mixed = mix_peroxide(bottle.ww, made.ww, *_volume_or_left(form))
    return Answer(mixes.peroxide_lines(mixed), list(mixed.notes), told_once(mixed.hazards))


def _strength(form: Form) -> Answer:
    parts = _lines(form, "parts")
    if len(parts) <= 1 and "," not in "".join(parts):
        poured = one_strength(peroxide_of("".join(parts), asked("parts")))
    else:
        numbered = enumerate(parts, start=1)
        poured = pour_together(part(text, f"{asked('parts')}, line {number}") for number, text in numbered)
    return Answer(mixes.strength_lines(poured), safety=told_once([poured.hazards]))


def _bath(form: Form) -> Answer:
    volume = _volume(form) or volume_for(q.parse_volume_ml("", asked("volume")), None, 12.0, None)
    assert volume is not None, "one of the two gives a volume, or raises"
    stock, form_at_hand = form.value("stock"), form.value("citric")
    at_hand = AtHand(
        peroxide_of(stock, asked("stock")).ww if stock else None,
        choice(form_at_hand, FORMS, asked("citric")) if form_at_hand else None,  # pyright: ignore[reportArgumentType]
    )
    bath = measure_bath(read_formula(form.value("formula").removesuffix(".toml")), volume.volume_ml, at_hand)
    return Answer(mixes.bath_lines(bath), list(volume.notes), told_once([bath.hazards, *bath.stocks]))


def _which(form: Form) -> Answer:
    stock_ml = q.parse_volume_ml(form.value("stock"), asked("stock"))
    water_ml = q.parse_volume_ml(form.value("water"), asked("water"))
    return Answer([mixes.which_line(of_amounts(stock_ml, water_ml))])


def _tray(form: Form) -> Answer:
    inside = q.parse_sheet(form.value("size"), asked("size"))
    rim = form.value("rim")
    rim_mm = q.parse_length_mm(rim, asked("rim")) if rim else None
    wanted, is_depth = depth_or_volume(form.value("amount"), asked("amount"))
    filled = (to_depth if is_depth else with_volume)(inside, wanted, rim_mm)
    return Answer(mixes.tray_lines(filled, inside), list(filled.notes))


def _citric(form: Form) -> Answer:
    mass_g = q.parse_mass_g(form.value("mass"), asked("mass"))
    wanted: Any = choice(form.value("form"), FORMS, asked("form"))
    held: Any = choice(form.value("have") or wanted, FORMS, asked("have"))
    held_g = converted_g(mass_g, wanted, held)
    return Answer(
        mixes.citric_lines(held_g, held, spoons(held_g)), safety=told_once([hazards_for("citric acid")])
    )


def _capacity(form: Form) -> Answer:
    kind: Any = choice(form.value("kind"), get_args(FormulaKind), asked("kind"))
    sheet = q.parse_sheet(form.value("size") or "8x10", asked("size"))
    age, count = form.value("age"), form.value("sheets") or "0"
    use = Use(
        sheets_8x10=q.parse_number(count, asked("sheets"), most=10_000) * sheet.as_8x10,
        visits=1,
        age_h=q.parse_seconds(age, asked("age"), most_s=60 * 24 * 3600) / 3600 if age else 0.0,
        fresh_s=None,
        now_s=None,
    )
    remaining = left(
        Limits(TRADE[kind].sheets_per_l, TRADE[kind].tray_h),
        q.parse_volume_ml(form.value("volume"), asked("volume")),
        use,
    )
    return Answer(mixes.capacity_lines(remaining, sheet))


def _hazards(form: Form) -> Answer:
    known = [hazards_for(*substance(text)) for text in _lines(form, "things")]
    return Answer([], list(clashes_between(known)), told_once(known))


def _choice(name: str, label: str, values: tuple[str, ...], example: str) -> Field:
    return Field(
        name, label, kind="choice", choices=tuple((value, value) for value in values), example=example
    )


SECTIONS: dict[str, tuple[Sum, ...]] = {
    "Light": (
        Sum("time", "The time for another arrangement", "light time", (FOUND, NEW, CLICKS), _time, CHANGE),
        Sum(
            "stop",
            "Which stop gives a time",
            "light stop",
            (FOUND, NEW, Field("wanted", "Time wanted", "without it that of before"), CLICKS),
            _stop,
            CHANGE,
        ),
        Sum(
            "height",
            "Which height gives a time",
            "light height",
            (
                FOUND,
                Field("wanted", "Time wanted", example="10 s"),
                Field("new", "What else changes", "as 'f/8'"),
            ),
            _height,
            CHANGE,
        ),
        Sum(
            "given",
            "What a time would do",
            "light given",
            (FOUND, NEW, Field("given", "Time given", example="8 s")),
            _given,
            CHANGE,
        ),
        Sum(
            "bigger",
            "The same on another sheet",
            "light bigger",
            (
                FOUND,
                Field("old", "Sheet that it was good on", example="4x5"),
                Field("new", "Sheet wanted", example="8x10"),
                Field("within", "What its corners may miss", "in stops; without it as much as they did"),
            ),
            _bigger,
            CHANGE,
        ),
    ),
    "Camera": (
        Sum(
            "camera-time",
            "The time, from a meter reading",
            "camera time",
            (
                Field(
                    "reading",
                    "Meter reading",
                    "EV, lux, luminance, or what the meter proposes",
                    example="EV 12",
                ),
                Field("stop", "Stop", example="f/22"),
                Field("ei", "Exposure index of the paper", example="4"),
                Field("filter", "Filter", "its name and effect: 'yellow, 1 1/3 stop'"),
                Field("light", "Subject light", "'open shade, -1/3 stop'"),
                *RACKED[:2],
            ),
            _camera_time,
            (
                *RACKED[2:],
                Field("iso_range", "ISO range of the paper", "'90'"),
                Field("ei_time", "Time at which the index was found", "without it 1 s"),
                Field("p", "Measured exponent of long exposures", "without it 0.9 ± 0.1"),
                Field("offs", "How well it is known", "one a line: 'reading 1/4 stop'", kind="area"),
                *METER,
            ),
        ),
        Sum(
            "bellows",
            "What a racked-out lens costs",
            "camera bellows",
            (
                Field("lens", "Focal length", example="150 mm"),
                Field("draw", "Draw", "lens board to film", example="300 mm"),
                Field("stop", "Marked stop", "to see what it really is"),
                Field("seconds", "Time at infinity", "'8 s'"),
            ),
            _bellows,
            RACKED[2:],
        ),
        Sum(
            "scene",
            "A reading said in every way",
            "camera light",
            (
                Field(
                    "reading",
                    "Meter reading",
                    "EV, lux, luminance, or what the meter proposes",
                    example="EV 12",
                ),
            ),
            _scene,
            METER,
        ),
    ),
    "Mixes": (
        Sum(
            "dilute",
            "Stock and water",
            "mix dilute",
            (
                Field("dilution", "Dilution", example="1 + 9"),
                VOLUME,
                LEFT,
                Field("stock", "Of what", "its hazards are shown"),
            ),
            _dilute,
            TRAY,
        ),
        Sum(
            "peroxide",
            "Peroxide of a wanted strength",
            "mix peroxide",
            (
                Field("wanted", "Strength wanted", example="10 % w/w"),
                Field("stock", "What the bottle’s label says", example="35 % w/w"),
                VOLUME,
                LEFT,
            ),
            _peroxide,
            TRAY,
        ),
        Sum(
            "strength",
            "What a mix really is",
            "mix strength",
            (
                Field(
                    "parts",
                    "What was poured together",
                    "a part a line",
                    kind="area",
                    example="300 mL of 9 % w/w\n200 mL water\ncitric acid, 12 g",
                ),
            ),
            _strength,
        ),
        Sum(
            "bath",
            "A whole bath",
            "mix bath",
            (
                Field("formula", "Formula", "one that comes along", example="peroxide-bleach"),
                VOLUME,
                Field("stock", "What the peroxide bottle’s label says", example="35 % w/w"),
                _choice("citric", "Citric acid that you have", tuple(FORMS), "anhydrous"),
            ),
            _bath,
            TRAY,
        ),
        Sum(
            "which",
            "Which dilution is this?",
            "mix which",
            (Field("stock", "Stock", example="37 mL"), Field("water", "Water added", example="410 mL")),
            _which,
        ),
        Sum(
            "tray",
            "How much stands in a tray",
            "mix tray",
            (
                Field("size", "Inner size", example="9.5x12 in"),
                Field("amount", "Depth, or a volume", example="15 mm"),
                Field("rim", "Height of its rim"),
            ),
            _tray,
        ),
        Sum(
            "citric",
            "Citric acid, by weight and spoons",
            "mix citric",
            (
                Field("mass", "Mass", example="20 g"),
                _choice("form", "Of the form", tuple(FORMS), "monohydrate"),
                _choice("have", "The form on your shelf", tuple(FORMS), "anhydrous"),
            ),
            _citric,
        ),
        Sum(
            "capacity",
            "What a bath still has in it",
            "mix capacity",
            (
                _choice("kind", "Kind", get_args(FormulaKind), "developer"),
                Field("volume", "Volume", example="1 L"),
                Field("sheets", "Sheets through it", example="9"),
                Field("size", "Their size", example="8x10"),
                Field("age", "Time in the open tray", example="3 h"),
            ),
            _capacity,
        ),
        Sum(
            "hazards",
            "What a stock or a bath asks for",
            "mix hazards",
            (
                Field(
                    "things",
                    "Stocks and baths",
                    "one a line",
                    kind="area",
                    example="hydrogen peroxide, 35 % w/w\nfixer",
                ),
            ),
            _hazards,
        ),
    ),
}
SUMS = {one.name: one for sums in SECTIONS.values() for one in sums}
