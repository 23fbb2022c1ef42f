"""What each name in a file of the firmware means: the files are read here, never run.

Whatever cannot be told by reading is refused with a line that says where, or is taken for the wider of two
meanings; so a name that is not found here is used nowhere.
"""

import ast
from collections import Counter
from collections.abc import Iterable, Iterator, Set
from dataclasses import dataclass
from typing import NamedTuple

from footlight.install.errors import InstallError

# They reach a file's names without naming them.
_UNNAMED = {"__import__", "dir", "eval", "exec", "globals", "locals", "vars"}


class Place(NamedTuple):
    """A name in a file; the file itself where `name` is empty."""

    module: str
    name: str = ""


@dataclass(frozen=True)
class Brought:
    """What an import brings. `local`: its name there; `whole`: the statement, None for one within a block."""

    local: str
    place: Place
    whole: ast.ImportFrom | None


@dataclass(frozen=True)
class Use:
    """A place named in an expression. `local`: the name that it begins with; `plain`: its value would do."""

    node: ast.Name | ast.Attribute
    local: str
    place: Place
    plain: bool


class Source:
    """One file, read. `modules`: those of the firmware, of which alone anything is told."""

    def __init__(self, path: str, text: str, modules: Set[str]) -> None:
        self.path = path
        self.text = text
        self.module = module_of(path)
        self.tree = _tree(path, text)
        self.nodes = list(ast.walk(self.tree))
        _refuse_unnamed(self, modules)
        self.bound = Counter(_bound(self.nodes))
        self.brought = list(_brought(self, modules))
        self.uses, self.kept = _uses(self)

    def is_sure(self, local: str) -> bool:
        """Does that name mean the same in the whole file? Bound twice, wherever, it is left alone."""
        return self.bound[local] == 1


def module_of(path: str) -> str:
    """controller/app.py -> controller.app; a folder's __init__.py is the folder."""
    return path.removesuffix(".py").removesuffix("/__init__").replace("/", ".")


def _tree(path: str, text: str) -> ast.Module:
    try:
        return ast.parse(text)
    except SyntaxError as error:
        raise InstallError(f"{path}, line {error.lineno}: {error.msg}") from error


def _refuse_unnamed(source: Source, modules: Set[str]) -> None:
    packages = {module.split(".")[0] for module in modules}
    for node in source.nodes:
        why = _unnamed(node, packages)
        if why:
            raise InstallError(f"{source.path}, line {getattr(node, 'lineno', 0)}: {why}")


def _unnamed(node: ast.AST, packages: Set[str]) -> str:
    if isinstance(node, ast.Name) and node.id in _UNNAMED:
        return f"'{node.id}' may reach names that are folded away; name what is wanted"
    if isinstance(node, ast.ImportFrom) and node.names[0].name == "*":
        return "import what is wanted by its name: by '*' nobody can tell what is used"
    if isinstance(node, ast.Import):
        for alias in node.names:
            if alias.name.split(".")[0] in packages:
                return f"write 'from … import …' instead of 'import {alias.name}'"
    return ""


def _bound(nodes: Iterable[ast.AST]) -> Iterator[str]:
    """Every name that anything in the file gives a meaning to, in whatever scope, once for each time."""
    for node in nodes:
        match node:
            case ast.Name(id=name, ctx=ast.Store() | ast.Del()) | ast.arg(arg=name):
                yield name
            case ast.FunctionDef(name=name) | ast.AsyncFunctionDef(name=name) | ast.ClassDef(name=name):
                yield name
            case ast.alias(name=name, asname=local):
                yield local or name.split(".")[0]
            case ast.ExceptHandler(name=str(name)):
                yield name


def _brought(source: Source, modules: Set[str]) -> Iterator[Brought]:
    for node in source.nodes:
        if isinstance(node, ast.ImportFrom):
            base = _base(source, node)
            for alias in node.names:
                inside = f"{base}.{alias.name}"
                place = Place(inside) if inside in modules else Place(base, alias.name)
                if place.module in modules:
                    whole = node if node in source.tree.body else None
                    yield Brought(alias.asname or alias.name, place, whole)


def _base(source: Source, node: ast.ImportFrom) -> str:
    """The module that an import is from, its dots resolved."""
    if not node.level:
        return node.module or ""
    parts = source.path.split("/")[: -node.level]
    return ".".join([*parts, node.module] if node.module else parts)


def _uses(source: Source) -> tuple[list[Use], set[Place]]:
    """What the file names; and what must keep its name: it is changed, or asked for as the very object."""
    reader = _Reader(source)
    reader.visit(source.tree)
    return reader.uses, reader.kept


class _Reader(ast.NodeVisitor):
    def __init__(self, source: Source) -> None:
        self.uses: list[Use] = []
        self.kept: set[Place] = set()
        self._source = source
        self._meant: dict[str, list[Brought]] = {}
        for one in source.brought:
            self._meant.setdefault(one.local, []).append(one)
        self._in_text = False

    def visit_JoinedStr(self, node: ast.JoinedStr) -> None:  # noqa: N802 - as `ast` wants it
        # Its quotes may be those of a text that would be written there.
        before, self._in_text = self._in_text, True
        self.generic_visit(node)
        self._in_text = before

    def visit_Compare(self, node: ast.Compare) -> None:  # noqa: N802
        before = len(self.uses)
        self.generic_visit(node)
        if any(isinstance(how, ast.Is | ast.IsNot) for how in node.ops):
            sides = [node.left, *node.comparators]
            self.kept |= {use.place for use in self.uses[before:] if use.node in sides}

    def visit_Name(self, node: ast.Name) -> None:  # noqa: N802
        if isinstance(node.ctx, ast.Load):
            meant = self._meant.get(node.id, [])
            own = Brought(node.id, Place(self._source.module, node.id), None)
            for one in meant or [own]:
                self._use(node, one, one.place)

    def visit_Attribute(self, node: ast.Attribute) -> None:  # noqa: N802
        files = [one for one in self._files(node.value) if one.place.name == ""]
        if not files:
            self.generic_visit(node)
        for one in files:
            place = Place(one.place.module, node.attr)
            if isinstance(node.ctx, ast.Load):
                self._use(node, one, place)
            else:
                self.kept.add(place)

    def _files(self, node: ast.expr) -> list[Brought]:
        return self._meant.get(node.id, []) if isinstance(node, ast.Name) else []

    def _use(self, node: ast.Name | ast.Attribute, one: Brought, place: Place) -> None:
        own = place.module == self._source.module
        plain = not self._in_text and self._source.is_sure(one.local) and (own or one.whole is not None)
        self.uses.append(Use(node, one.local, place, plain))
