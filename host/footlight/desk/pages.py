"""How a page is made: what every template is given, forms with errors beside the field, marks as links."""

import os
import re
import shutil
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from hashlib import sha256
from pathlib import Path
from typing import Any
from urllib.parse import quote

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape
from starlette.datastructures import FormData, UploadFile
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from footlight import errors
from footlight.actions.list_acts import Dated, list_acts
from footlight.desk.desk import Desk
from footlight.errors import FootlightError, InputError, fields_in, spoken
from footlight.views.json_text import json_text
from footlight.views.plain_text import plain

# More than any of them will ever be.
MOST = 9_999_999
HERE = Path(__file__).parent
# The pages, in the order of an evening; the address of each begins so.
PAGES = (
    ("/tonight", "Tonight"),
    ("/sequence", "Sequence"),
    ("/reckon", "Reckon"),
    ("/strip", "Strip"),
    ("/prints", "Prints"),
    ("/stock", "Stock"),
    ("/history", "History"),
    ("/begin", "Begin"),
)
# What an error advises -> the page where it is done; a command that has none is said as it is typed.
_ACTS = {
    "collect": "/tonight",
    "tonight": "/tonight",
    "sheets": "/prints",
    "history": "/history",
    "undo": "/history",
    "reinstate": "/history",
    "attach": "/prints",
    "bath": "/stock",
    "bath mixed": "/stock/enter/bath-mixed",
    "bath found": "/stock/enter/bath-found",
    "paper": "/stock",
    "paper add": "/stock/enter/paper-added",
    "paper found": "/stock/enter/paper-found",
    "lens add": "/stock/enter/lens-added",
    "mix bath": "/reckon/bath",
    "lens": "/stock",
    "setups": "/stock",
    "plan": "/sequence",
    "new": "/sequence",
    "send": "/sequence",
    "ready": "/sequence",
    "read": "/strip",
    "accept": "/strip",
    "light": "/reckon",
    "camera": "/reckon",
    "mix": "/reckon",
}
DIM = "footlight-dim"


@dataclass(frozen=True)
class Field:
    """One thing that is asked. kind: text, area, choice, many, file, tick. choices: (value, words)."""

    name: str
    label: str
    hint: str = ""
    kind: str = "text"
    choices: tuple[tuple[str, str], ...] = ()
    example: str = ""


@dataclass(frozen=True)
class Form:
    """Fields with what was typed, and what is wrong with it. faults: a field -> what is wrong, where
    more than one thing is."""

    fields: tuple[Field, ...]
    typed: Mapping[str, Sequence[str]] = field(default_factory=dict)
    error: FootlightError | None = None
    faults: Mapping[str, str] = field(default_factory=dict)

    def value(self, name: str) -> str:
        """What was typed there, '' where nothing was."""
        return next(iter(self.typed.get(name, ())), "").strip()

    def values(self, name: str) -> tuple[str, ...]:
        """Everything that was chosen there."""
        return tuple(text for text in self.typed.get(name, ()) if text)

    def wrong(self, name: str) -> Markup | None:
        """What is wrong with that field."""
        if name in self.faults:
            return told(self.faults[name])
        return self._told() if self.error and self.at_fault == name else None

    def wrong_beside(self) -> Markup | None:
        """What is wrong and belongs to no field of this form."""
        return self._told() if self.error and not self.at_fault else None

    @property
    def at_fault(self) -> str:
        """The field that the error names first, '' for none of these."""
        names = {asked.name for asked in self.fields}
        named = fields_in(self.error.text) if self.error else []
        return next((name for name in named if name in names), "")

    def with_error(self, error: FootlightError) -> "Form":
        """The same, as typed, and why it did not do."""
        return replace(self, error=error)

    def _told(self) -> Markup:
        assert self.error is not None
        labels = {asked.name: asked.label for asked in self.fields}
        return told(self.error.text, labels)


def sent_form(fields: tuple[Field, ...], data: FormData) -> Form:
    """The form as it was sent."""
    typed = {
        asked.name: [text for text in data.getlist(asked.name) if isinstance(text, str)] for asked in fields
    }
    return Form(fields, typed)


def has_file(data: FormData, name: str) -> bool:
    """Was a file chosen there?"""
    sent = data.get(name)
    return isinstance(sent, UploadFile) and bool(sent.filename)


@contextmanager
def uploaded(data: FormData, name: str) -> Iterator[Path]:
    """A file that was sent, under its own name, while it is read; errors name it without its folder."""
    sent = data.get(name)
    if not isinstance(sent, UploadFile) or not sent.filename:
        raise InputError(f"{errors.field(name)}: choose a file")
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / _file_name(sent.filename)
        with path.open("wb") as file:
            shutil.copyfileobj(sent.file, file)
        try:
            yield path
        except FootlightError as error:
            raise type(error)(
                f"{errors.field(name)}: {error.text.replace(f'{folder}{os.sep}', '')}"
            ) from error


def _file_name(sent: str) -> str:
    """The last part of a name, in letters that every file system takes."""
    return (
        re.sub(r"[^\w.,() +-]", "_", sent.replace("\\", "/").rpartition("/")[2])[-80:].lstrip(".") or "file"
    )


def whole_number(text: str, what: str, least: int = 1, most: int = MOST) -> int:
    """A whole number that was typed. Raises InputError."""
    if not text.isdecimal() or not least <= int(text) <= most:
        raise InputError(f"{errors.field(what)}: '{text}' is no whole number from {least} to {most}")
    return int(text)


def told(text: str, labels: Mapping[str, str] | None = None) -> Markup:
    """A text from below as HTML: its fields by their labels, its acts as links or commands."""
    return Markup(
        spoken(
            f"{escape(plain(text))}",
            lambda name: f"<b>{(labels or {}).get(name, name.replace('_', ' '))}</b>",
            _act_link,
        )
    )


def _act_link(name: str) -> str:
    address = _ACTS.get(name) or _ACTS.get(name.split(" ")[0])
    return f'<a href="{address}">{name}</a>' if address else f"<code>footlight {name}</code>"


def fingerprint(shown: object) -> str:
    """What a form was made from, in a few letters: another one means that it changed meanwhile."""
    return sha256(json_text(shown, None, None).encode("utf-8", "replace")).hexdigest()[:16]


def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(HERE / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters["told"] = told
    environment.globals["PAGES"] = PAGES
    return environment


_ENVIRONMENT = _environment()


def page(request: Request, template: str, *, status: int = 200, **context: Any) -> Response:
    """A page. A part of one where its own script asked for it: the template's block `part`."""
    made = _ENVIRONMENT.get_template(template)
    is_part = request.headers.get("hx-request") == "true" and "part" in made.blocks
    everything = {
        "path": request.url.path,
        "is_dim": DIM in request.cookies,
        "error": None,
        "is_part": is_part,
        **context,
    }
    if is_part:
        return HTMLResponse("".join(made.blocks["part"](made.new_context(everything))), status)
    return HTMLResponse(made.render(everything), status)


def part(template: str, context: Mapping[str, Any]) -> str:
    """The part of a page that changes by itself."""
    made = _ENVIRONMENT.get_template(template)
    return "".join(made.blocks["part"](made.new_context(dict(context)))).strip()


def act_done(desk: Desk, request: Request) -> Dated | None:
    """The act that the address says was just entered, as far as it stands: it can be taken back at once."""
    number = request.query_params.get("act", "")
    if not number or not desk.book.is_file():
        return None
    entered = [act for act in list_acts(desk.book, 20) if number == f"{act.id}"]
    return entered[0] if entered and entered[0].undone_unix_s is None else None


def see(address: str) -> Response:
    """After a change: what there is to see now, so that to reload it changes nothing again."""
    return RedirectResponse(address, 303)


def address(under: str, name: str) -> str:
    """The address of a thing by its name."""
    return f"{under}/{quote(name, safe='')}"


def trouble(request: Request, error: FootlightError, status: int = 400) -> Response:
    """A page that says what is wrong, where no form could."""
    return page(request, "trouble.html", status=status, error=error, title="This cannot be shown")
