"""The manual as a page for `man`: footlight(1), in the macros of man(7), from the commands themselves."""

from collections.abc import Iterable, Iterator

from footlight import __version__
from footlight.cli.description import Described, Paragraph, sections
from footlight.errors import EXIT_CODES
from footlight.settings import FILE_ENV, SETTINGS

_ABOUT = (
    "Footlight plans, sends, watches and keeps darkroom runs for a foot-operated controller: sheets"
    " pre-flashed dry, exposed in a view camera, then developed, bleached, given a measured second exposure"
    " and developed again. Every exposure is worked out from one that was found good, with how sure it is.",
    "Quantities carry their unit: 6 s, 1:30, 620 mm, f/11. A number without one is an error.",
)
_EVERYWHERE = (
    ("-h, --help", "What a command does, with an example."),
    ("-q, --quiet", "No hints and no progress: results and errors alone."),
    ("--json", "For scripts, where a command has it."),
)


def page() -> str:
    """The whole page, in ASCII."""
    lines = [
        f'.TH FOOTLIGHT 1 "" "footlight {_escaped(__version__)}"',
        *_section("Name"),
        "footlight \\- plan, run and keep darkroom prints with a foot\\-operated controller",
        *_section("Synopsis"),
        ".B footlight",
        "[\\fIoption\\fR ...] \\fIcommand\\fR ...",
        *_section("Description"),
        *_prose(Paragraph(text, is_laid_out=False) for text in _ABOUT),
        *_section("Options of every command"),
        *(line for names, text in _EVERYWHERE for line in _tagged(names, text)),
    ]
    for heading, commands in sections():
        lines += _section(heading)
        for command in commands:
            lines += _command(command)
    return "\n".join([*lines, *_ends()]) + "\n"


def _command(command: Described) -> Iterator[str]:
    yield f'.SS "{_escaped(command.name)}"'
    yield f"\\fB{_escaped(command.name)}\\fR {_escaped(command.usage)}"
    yield ".PP"
    yield from _prose(command.text or [Paragraph(_sentence(command.purpose), is_laid_out=False)])
    for names, text in command.options:
        yield from _tagged(names, text)
    if command.examples:
        yield from (".PP", "Example:", *_laid_out(command.examples))


def _ends() -> Iterator[str]:
    yield from _section("Exit status")
    for code, meaning in EXIT_CODES.items():
        yield from _tagged(str(code), _sentence(meaning))
    yield from _section("Environment")
    for setting in SETTINGS.values():
        yield from _tagged(setting.env, _sentence(setting.meaning))
    yield from _tagged(FILE_ENV, "Another settings file.")
    yield from _tagged("NO_COLOR", "Any value but an empty one: no colours.")
    yield from _section("Files")
    yield from _tagged("settings.toml", "The settings; 'footlight settings' says where it lies.")
    yield from _tagged("notebook.sqlite", "The notebook; 'footlight settings' says where it lies.")


def _section(heading: str) -> tuple[str, ...]:
    return (f'.SH "{_escaped(heading.upper())}"',)


def _prose(paragraphs: Iterable[Paragraph]) -> Iterator[str]:
    for number, part in enumerate(paragraphs):
        if part.is_laid_out:
            yield from _laid_out(part.text.splitlines())
            continue
        if number:
            yield ".PP"
        yield _escaped(part.text)


def _laid_out(lines: Iterable[str]) -> Iterator[str]:
    yield from (".PP", ".RS 4", ".nf")
    yield from (_escaped(line) if line.strip() else ".sp" for line in lines)
    yield from (".fi", ".RE")


def _tagged(names: str, text: str) -> tuple[str, ...]:
    return (".TP", f"\\fB{_escaped(names)}\\fR", _escaped(" ".join(text.split())) or "\\&")


def _sentence(text: str) -> str:
    return f"{text[0].upper()}{text[1:]}."


def _escaped(text: str) -> str:
    """Text that nothing takes for a request, in ASCII."""
    safe = text.replace("\\", "\\e").replace("-", "\\-").replace('"', "\\(dq")
    safe = "".join(char if ord(char) < 128 else f"\\[u{ord(char):04X}]" for char in safe)
    return f"\\&{safe}" if safe[:1] in (".", "'") else safe
