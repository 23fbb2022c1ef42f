"""A sequence's text as a form: a field for each key of each tray and step, and what was typed as values."""

from collections.abc import Sequence
from dataclasses import dataclass

from starlette.datastructures import FormData

from footlight.actions.arrange_sequence import Draft, Fault, inner_keys, setup_values_of, values_of
from footlight.desk.pages import Field, Form
from footlight.sequence.keys import Key
from footlight.sequence.setup_keys import LAMP, SETUP
from footlight.sequence.step_keys import AFTER, HEAD, STEPS, TRAY
from footlight.sequence.written_values import YES, Values

# What is looked at again and again; the rest opens on wish.
_FIRST = {
    "name",
    "show",
    "tray",
    "time",
    "lift",
    "least",
    "most",
    "setup",
    "dose",
    "place",
    "tongs",
    "bath",
    "title",
    # Of a light setup and a lamp.
    "lamp",
    "lens",
    "stop",
    "height",
    "dead_time",
    "reference",
    "cap",
    "ten_minute_limit",
}
_LONG = {"about", "note", "cues"}
_TICKS = {"white_light", "aside"}
# A step of no kind that is known has no keys.
_STEPS: dict[str, tuple[Key, ...]] = {**STEPS}
_APART = {"kind", "step", "trays"}


@dataclass(frozen=True)
class Part:
    """A table of the file. table: as the file calls it; title: as the page does. first, more: its fields."""

    table: str
    title: str
    kind: str
    first: tuple[Field, ...]
    more: tuple[Field, ...]
    number: int = 0


@dataclass(frozen=True)
class SequenceForm:
    """The whole of it. general: what is wrong and belongs to no field, by table."""

    head: Part
    trays: tuple[Part, ...]
    steps: tuple[Part, ...]
    form: Form
    general: dict[str, list[str]]

    @property
    def parts(self) -> tuple[Part, ...]:
        """Head, trays and steps."""
        return (self.head, *self.trays, *self.steps)


def form_of(draft: Draft, faults: Sequence[Fault]) -> SequenceForm:
    """The form of a draft, each fault at its field."""
    values = values_of(draft.text)
    trays = draft.trays
    head = _part("", "The sequence", "", HEAD, trays)
    of_trays = tuple(_part(f"trays.{name}", name, "tray", TRAY, trays, n) for n, name in enumerate(trays, 1))
    steps = tuple(
        _part(
            f"step {number}",
            values.get((f"step {number}", "name"), "") or kind,
            kind,
            _STEPS.get(kind, ()),
            trays,
            number,
        )
        for number, kind in enumerate(draft.kinds, start=1)
    )
    form, general = _filled((head, *of_trays, *steps), values, faults)
    return SequenceForm(head, of_trays, steps, form, general)


def setups_form_of(draft: Draft, faults: Sequence[Fault]) -> SequenceForm:
    """The form of a light-setups file: its setups in the place of steps, its lamps in that of trays."""
    values = setup_values_of(draft.text)
    names = list(dict.fromkeys(table for table, _ in values))
    lamps = [name for name in names if name.startswith("lamp.")]
    setups = [name for name in names if name.startswith("setup.")]
    of_lamps = tuple(_part(name, name[5:], "tray", LAMP, (), place) for place, name in enumerate(lamps, 1))
    of_setups = tuple(
        _part(name, name[6:], "setup", SETUP, (), place) for place, name in enumerate(setups, 1)
    )
    form, general = _filled((*of_lamps, *of_setups), values, faults)
    return SequenceForm(Part("", "", "", (), ()), of_lamps, of_setups, form, general)


def _filled(
    parts: Sequence[Part], values: Values, faults: Sequence[Fault]
) -> tuple[Form, dict[str, list[str]]]:
    at = {(part.table, _key(field)): field.name for part in parts for field in (*part.first, *part.more)}
    typed = {name: [values[place]] for place, name in at.items() if place in values}
    told: dict[str, str] = {}
    general: dict[str, list[str]] = {}
    for fault in faults:
        name = at.get((fault.table, fault.key)) or at.get((fault.table, f"{fault.key}.first"))
        if name:
            told[name] = fault.text
        else:
            said = f"{fault.key}: {fault.text}" if fault.key else fault.text
            general.setdefault(fault.table, []).append(said)
    fields = tuple(field for part in parts for field in (*part.first, *part.more))
    return Form(fields, typed, faults=told), general


def typed_values(shape: SequenceForm, sent: FormData) -> dict[tuple[str, str], str]:
    """What was typed, as values of the tables; a field that was not sent stays as it is, and a tick that was
    not sent is taken away."""
    values = {}
    for part in shape.parts:
        for field in (*part.first, *part.more):
            typed = sent.get(field.name)
            if field.kind == "tick" and f"{field.name}--shown" in sent:
                values[part.table, _key(field)] = YES if typed else ""
            elif isinstance(typed, str):
                values[part.table, _key(field)] = typed.replace("\r\n", "\n").strip()
    return values


def _part(
    table: str, title: str, kind: str, keys: Sequence[Key], trays: Sequence[str], number: int = 0
) -> Part:
    slug = f"{kind and ('tray' if kind == 'tray' else 'step')}-{number}" if table else "head"
    fields = [
        _field(slug, key, inner.name if inner else "", inner or key, trays)
        for key in keys
        if key.name not in _APART
        for inner in (inner_keys(key) or (None,))
    ]
    first = tuple(field for field in fields if _key(field) in _FIRST)
    return Part(table, title, kind, first, tuple(field for field in fields if field not in first), number)


def _field(slug: str, outer: Key, inner: str, key: Key, trays: Sequence[str]) -> Field:
    name = f"{slug}--{outer.name}" + (f".{inner}" if inner else "")
    label = f"{outer.name} {inner}" if inner else outer.name.replace("_", " ")
    hint = key.meaning
    if outer.name == "cues":
        return Field(name, label, "a line for each: '20 s DUMP'; a sound at that time", "area")
    if outer.name in _TICKS:
        return Field(name, f"{label}: {hint}", kind="tick")
    if outer.name == "tray":
        return Field(name, label, kind="choice", choices=tuple((tray, tray) for tray in trays))
    if outer.name == "after":
        return Field(name, label, hint, "choice", tuple((word, word) for word in AFTER))
    return Field(name, label, hint, "area" if outer.name in _LONG else "text")


def _key(field: Field) -> str:
    return field.name.partition("--")[2]
