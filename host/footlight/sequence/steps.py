"""One `[[step]]` table -> a checked step."""

from dataclasses import dataclass
from typing import Any, assert_never

from footlight.errors import InputError
from footlight.quantities import format_duration
from footlight.sequence import shown as display
from footlight.sequence import step_keys as keys
from footlight.sequence.errors import nearest, short
from footlight.sequence.keys import read_keys
from footlight.sequence.model import (
    Agitation,
    AnyStep,
    Bath,
    ByHand,
    Cue,
    Light,
    Pause,
    Tray,
    UntilPressed,
)
from footlight.sequence.places import Place
from footlight.sequence.setups import Setups, at_step


@dataclass(frozen=True)
class Around:
    """What a step may refer to."""

    trays: dict[str, Tray]
    setups: Setups | None

    def tray(self, name: str | None, place: Place) -> Tray | None:
        """The tray of that name; raises InputError naming the nearest."""
        if name is None or name in self.trays:
            return self.trays[name] if name else None
        hint = nearest(name, list(self.trays)) or "; add for example [trays.fixer]"
        raise InputError(f"{place.of('tray')}: there is no tray '{short(name)}'{hint}")


def place_of(number: int, raw: Any, head: Place) -> Place:
    """How messages call a step: `step 3 'rinse'`, by its number alone where it has no name."""
    name = raw.get("name") if isinstance(raw, dict) else None
    named = f" '{short(name)}'" if isinstance(name, str) and name.strip() else ""
    return head.table(f"step {number}", f"step {number}{named}")


def read_step(number: int, raw: Any, place: Place, around: Around) -> AnyStep:
    """A checked step; raises InputError."""
    kind = _kind(raw, place)
    values = read_keys(raw, keys.STEPS[kind], place)
    common = {
        "number": number,
        "name": values["name"],
        "show": values["show"] or display.from_name(values["name"], place.of()),
        "auto": values["after"] == "auto",
        "white": values["white_light"],
        "note": values["note"],
    }
    if number == 1 and common["auto"] and kind != Light.kind:
        raise InputError(f"{place.of('after')}: 'auto'; the first step waits for the pedal: leave this out")
    match kind:
        case "bath":
            return _bath(common, values, place, around)
        case "by hand":
            return _by_hand(common, values, place, around)
        case "until pressed":
            return _until_pressed(common, values, place, around)
        case "light":
            return _light(common, values, place, around)
        case "pause":
            return Pause(**common)
        case _:
            assert_never(kind)


def _kind(raw: Any, place: Place) -> keys.StepKind:
    """The kind decides which keys are known, so it is read first."""
    if not isinstance(raw, dict):
        raise InputError(f"{place.of()}: {short(raw)}; write each step as a table under [[step]]")
    declared = keys.PAUSE[0]
    if declared.name not in raw:
        raise InputError(f"{place.of()}: kind is missing; allowed is {declared.reader.allowed}")
    return declared.reader.read(raw[declared.name], place.of(declared.name))


def _bath(common: dict[str, Any], values: dict[str, Any], place: Place, around: Around) -> Bath:
    tray = around.tray(values["tray"], place)
    assert tray is not None, "the key is required"
    agitation = _agitation(values["agitation"], place)
    time_ms, lift_ms = values["time"], values["lift"]
    if lift_ms >= time_ms:
        raise InputError(
            f"{place.of('lift')}: {format_duration(lift_ms)}; allowed is less than time ="
            f" {format_duration(time_ms)}, which includes it"
        )
    return Bath(
        **common, tray=tray, time_ms=time_ms, lift_ms=lift_ms, agitation=agitation, aside=values["aside"]
    )


def _agitation(raw: Any, place: Place) -> Agitation:
    inner = place.inner("agitation", "agitation")
    values = read_keys(raw, keys.AGITATION, inner)
    every_ms, for_ms = values["every"], values["for"]
    if bool(every_ms) != bool(for_ms):
        missing = "for" if every_ms else "every"
        raise InputError(f"{inner.of()}: {missing} is missing; 'every' and 'for' go together")
    if every_ms and for_ms >= every_ms:
        raise InputError(
            f"{inner.of('for')}: {format_duration(for_ms)}; allowed is less than every ="
            f" {format_duration(every_ms)}"
        )
    return Agitation(values["first"], every_ms, for_ms)


def _by_hand(common: dict[str, Any], values: dict[str, Any], place: Place, around: Around) -> ByHand:
    tray = around.tray(values["tray"], place)
    return ByHand(**common, tray=tray, time_ms=values["time"], cues=_cues(values, place))


def _cues(values: dict[str, Any], place: Place) -> tuple[Cue, ...]:
    raw = values["cues"]
    if not isinstance(raw, list) or len(raw) > keys.MOST_CUES:
        raise InputError(
            f"{place.of('cues')}: {short(raw)}; allowed is a list of up to {keys.MOST_CUES} cues"
        )
    cues: list[Cue] = []
    for number, one in enumerate(raw, start=1):
        inner = place.inner("cues", f"cue {number}")
        read = read_keys(one, keys.CUE, inner)
        if read["at"] > values["time"]:
            raise InputError(
                f"{inner.of('at')}: {format_duration(read['at'])}; allowed is within time ="
                f" {format_duration(values['time'])}"
            )
        if cues and read["at"] <= cues[-1].at_ms:
            raise InputError(
                f"{inner.of('at')}: {format_duration(read['at'])}; cues must come in order of time"
            )
        cues.append(Cue(read["at"], read["show"]))
    return tuple(cues)


def _until_pressed(
    common: dict[str, Any], values: dict[str, Any], place: Place, around: Around
) -> UntilPressed:
    least_ms, most_ms = values["least"], values["most"]
    if least_ms >= most_ms:
        raise InputError(
            f"{place.of('least')}: {format_duration(least_ms)}; allowed is less than most ="
            f" {format_duration(most_ms)}"
        )
    tray = around.tray(values["tray"], place)
    return UntilPressed(**common, tray=tray, least_ms=least_ms, most_ms=most_ms)


def _light(common: dict[str, Any], values: dict[str, Any], place: Place, around: Around) -> Light:
    if common["auto"]:
        raise InputError(f"{place.of('after')}: 'auto'; a light never starts by itself: leave this out")
    if (values["dose"] is None) == (values["time"] is None):
        count = "both are written" if values["dose"] else "neither is written"
        raise InputError(f'{place.of()}: dose or time: {count}; write one, for example dose = "reference"')
    if values["already"] and values["dose"] is None:
        raise InputError(f"{place.of('already')}: goes only with a dose; write dose instead of time")
    assert around.setups is not None, "setups are read where there is a light"
    placed = around.setups.get(values["setup"], place.of("setup"))
    return Light(
        **common,
        placed=at_step(placed, values["height"], values["stop"], place.of()),
        dose=values["dose"],
        already=values["already"],
        time_ms=values["time"] or 0,
        settle_ms=values["settle"],
    )
