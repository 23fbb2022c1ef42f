"""Numbers and short texts written where they are used, across the firmware's files, before they are compiled.

The chip's compiler does so within a file. What one file takes from another it must keep under its name on
both sides, and with some two hundred such names that is a tenth of the flash. So each constant (a name in
capitals, given once, to a number or a text written out) is put in place of its name; then the definitions and
imports that nobody needs any more go. Nothing else changes: a traceback names the same file and function.

Of the syntax tree only the places of names are used, which are the same in every Python; the text is not
written anew from it. So whatever Python runs the tool, the board gets the same bytes, and an update, which is
decided by their hashes, copies only what has changed.
"""

import ast
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from footlight.install.naming import Brought, Place, Source, Use, module_of

Value = int | str


@dataclass(frozen=True)
class _Edit:
    """`new` in place of what stands at a node."""

    node: ast.expr | ast.stmt
    new: str


def folded(parts: Mapping[str, str], users: Mapping[str, str]) -> dict[str, str]:
    """Path -> source text of the files to be compiled, folded.

    `users`: other texts that run on the board and import from the parts, by what to call them; they stay as
    they are, and find all that they name. Raises InstallError where names are used in a way that cannot be
    followed.
    """
    modules = {module_of(path) for path in parts}
    sources = [Source(path, text, modules) for path, text in parts.items()]
    others = [Source(path, text, modules) for path, text in users.items()]
    plan = _Plan(sources, others)
    return {source.path: _edited(source.text, plan.edits(source)) for source in sources}


class _Plan:
    """What is folded, and what then is needed by nobody."""

    def __init__(self, parts: list[Source], users: list[Source]) -> None:
        sources = [*parts, *users]
        self._asked = _asked(sources)
        constants = dict(_constants(parts, _open(sources), _kept(sources)))
        self._constants = dict(_worth_it(constants, parts))
        self._needed = {use.place for user in users for use in user.uses}
        self._needed |= {one.place for user in users for one in user.brought}
        for part in parts:
            self._needed |= {use.place for use in part.uses if not self._is_folded(use)}
            self._needed |= {one.place for one in part.brought if self._stays(part, one, part.uses)}

    def edits(self, source: Source) -> Iterator[_Edit]:
        """All that changes in a file."""
        gone = list(self._gone(source))
        inside = {id(node) for statement in gone for node in ast.walk(statement)}
        uses = [use for use in source.uses if id(use.node) not in inside]
        for use in uses:
            if self._is_folded(use):
                yield _Edit(use.node, _written_out(self._constants[use.place]))
        for statement in gone:
            yield _Edit(statement, "pass")
        yield from self._imports(source, uses)

    def _is_folded(self, use: Use) -> bool:
        return use.plain and use.place in self._constants

    def _stays(self, source: Source, one: Brought, uses: Iterable[Use]) -> bool:
        """Is an import still needed: by a use that is not folded, by another file, or for what it does?"""
        if one.whole is None or Place(source.module, one.local) in self._asked:
            return True
        here = [use for use in source.uses if use.local == one.local]
        return not here or any(use.local == one.local and not self._is_folded(use) for use in uses)

    def _gone(self, source: Source) -> Iterator[ast.Assign]:
        for statement, name, _ in _definitions(source):
            place = Place(source.module, name)
            if place in self._constants and place not in self._needed:
                yield statement

    def _imports(self, source: Source, uses: list[Use]) -> Iterator[_Edit]:
        for whole in dict.fromkeys(one.whole for one in source.brought if one.whole):
            ours = [one for one in source.brought if one.whole is whole]
            kept = {one.local for one in ours if self._stays(source, one, uses)}
            if len(kept) < len(whole.names):
                yield _Edit(whole, _import_of(whole, kept))


def _asked(sources: Iterable[Source]) -> set[Place]:
    """The names that files take from one another, or might."""
    brought = {one.place for source in sources for one in source.brought}
    return brought | {
        use.place for source in sources for use in source.uses if use.place.module != source.module
    }


def _open(sources: Iterable[Source]) -> set[str]:
    """Files that are handed on as a whole: any name in them may be read, or changed, where nobody sees it."""
    asked = _asked(sources)
    handed = {use.place.module for source in sources for use in source.uses if not use.place.name}
    for source in sources:
        for one in source.brought:
            if not one.place.name and Place(source.module, one.local) in asked:
                handed.add(one.place.module)
    return handed


def _kept(sources: Iterable[Source]) -> set[Place]:
    return {place for source in sources for place in source.kept}


def _constants(parts: Iterable[Source], handed: set[str], kept: set[Place]) -> Iterator[tuple[Place, Value]]:
    """Every name that always means one number or text."""
    for part in parts:
        if part.module not in handed:
            for _, name, value in _definitions(part):
                place = Place(part.module, name)
                if part.is_sure(name) and place not in kept:
                    yield place, value


def _definitions(source: Source) -> Iterator[tuple[ast.Assign, str, Value]]:
    for statement in source.tree.body:
        match statement:
            case ast.Assign(targets=[ast.Name(id=name)], value=value) if name.isupper():
                found = _literal(value)
                # True is an int to Python, and another object to whoever prints it.
                if type(found) is int or type(found) is str:
                    yield statement, name, found


def _literal(node: ast.expr) -> object:
    match node:
        case ast.Call(func=ast.Name(id="const"), args=[inside]):
            return _literal(inside)
    try:
        return ast.literal_eval(node)
    except ValueError:
        return None


def _worth_it(constants: Mapping[Place, Value], parts: Iterable[Source]) -> Iterator[tuple[Place, Value]]:
    """All numbers, and each text that takes no more room in its files than its name there and itself once.

    However often a compiled file uses a text or a name, it holds it once.
    """
    files = Counter(place for part in parts for place in {use.place for use in part.uses if use.plain})
    for place, value in constants.items():
        count = files[place]
        if isinstance(value, int) or (count - 1) * len(value.encode()) <= count * len(place.name):
            yield place, value


def _written_out(value: Value) -> str:
    # In brackets a number binds as its name did, also before a dot, and if it is negative.
    return ascii(value) if isinstance(value, str) else f"({value})"


def _import_of(whole: ast.ImportFrom, kept: set[str]) -> str:
    names = [alias for alias in whole.names if (alias.asname or alias.name) in kept]
    if not names:
        return "pass"
    return ast.unparse(ast.ImportFrom(whole.module, names, whole.level))


def _edited(text: str, edits: Iterable[_Edit]) -> str:
    """The text with every edit made, from its end to its beginning, so that the places before stay true."""
    starts, data = _line_starts(text), text.encode()
    for edit in sorted(edits, key=lambda edit: (edit.node.lineno, edit.node.col_offset), reverse=True):
        begin, end = _span(edit.node, starts)
        data = data[:begin] + edit.new.encode() + data[end:]
    return data.decode()


def _line_starts(text: str) -> list[int]:
    """Where each line begins [bytes], for that is how the syntax tree counts columns."""
    starts = [0]
    for line in text.encode().split(b"\n"):
        starts.append(starts[-1] + len(line) + 1)
    return starts


def _span(node: ast.expr | ast.stmt, starts: list[int]) -> tuple[int, int]:
    # Optional only for nodes that were made and not read.
    assert node.end_lineno is not None and node.end_col_offset is not None
    begin = starts[node.lineno - 1] + node.col_offset
    return begin, starts[node.end_lineno - 1] + node.end_col_offset
