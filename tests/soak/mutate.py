"""Small changes to a module of the firmware, one at a time: comparison, logic, sum, constant, statement.

Made from the syntax tree, so that a mutant is named by what stands in the source and not by a line number:
`guards.py calm: seq.arg >= seq.entered_ms + CALM_MS -> seq.arg > seq.entered_ms + CALM_MS`.
"""

import ast
import copy
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from typing import Any

_COMPARE: dict[type, tuple[type, ...]] = {
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
}
_ARITHMETIC: dict[type, type] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.FloorDiv,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.FloorDiv,
}
# A table's row is (state, event, guard, action, next state): what each of the last three becomes.
_ROW = {2: "when.always", 3: "do.nothing", 4: "None"}
_ROW_LENGTH = 5
# Statements that are also left out; a whole `if` becomes always or never.
_REMOVED = (ast.Expr, ast.Assign, ast.AugAssign, ast.Raise, ast.For, ast.Break, ast.Continue, ast.Return)


@dataclass(frozen=True)
class Mutant:
    """One changed module. `name` is the same as long as the place in the source is."""

    name: str
    source: Callable[[], str]


@dataclass(frozen=True)
class _Place:
    """A node, the function that it is in, and where it hangs in the tree."""

    where: str
    parent: ast.AST
    field: str
    index: int | None
    node: ast.AST

    def source_with(self, tree: ast.Module, new: ast.AST | None) -> str:
        """The module's source with another node here, or none; the tree stays as it is."""
        whole = getattr(self.parent, self.field)
        setattr(self.parent, self.field, self._changed(whole, new))
        source = ast.unparse(ast.fix_missing_locations(tree))
        setattr(self.parent, self.field, whole)
        return source

    def _changed(self, whole: Any, new: ast.AST | None) -> Any:
        if self.index is None:
            return new
        kept = [] if new is None and isinstance(self.parent, ast.Tuple) else [new or ast.Pass()]
        return [*whole[: self.index], *kept, *whole[self.index + 1 :]]


def mutants(file: str, source: str) -> Iterator[Mutant]:
    """Every mutant of a module, in the order of its source."""
    tree = ast.parse(source)
    seen: Counter[str] = Counter()
    for place in list(_places(tree, "module")):
        for new in _alternatives(place.node, place.parent):
            after = "nothing" if new is None else _short(new)
            name = f"{file} {place.where}: {_short(place.node)} -> {after}"
            seen[name] += 1
            tail = f" #{seen[name]}" if seen[name] > 1 else ""
            yield Mutant(name + tail, partial(place.source_with, tree, new))


def _short(node: ast.AST) -> str:
    return " ".join(ast.unparse(node).split())[:100]


def _places(node: ast.AST, where: str) -> Iterator[_Place]:
    for field, value in ast.iter_fields(node):
        for index, child in enumerate(value) if isinstance(value, list) else ((None, value),):
            if isinstance(child, ast.AST):
                yield _Place(where, node, field, index, child)
                yield from _places(child, child.name if isinstance(child, ast.FunctionDef) else where)


def _alternatives(node: ast.AST, parent: ast.AST) -> Iterator[ast.AST | None]:
    if isinstance(node, ast.Compare):
        yield from _comparisons(node)
    elif isinstance(node, ast.BoolOp):
        yield from _logic(node)
    elif isinstance(node, ast.BinOp) and type(node.op) in _ARITHMETIC:
        yield ast.BinOp(node.left, _ARITHMETIC[type(node.op)](), node.right)
    elif isinstance(node, ast.UnaryOp):
        yield node.operand
    elif isinstance(node, ast.Constant):
        yield from _constants(node, parent)
    elif isinstance(node, (ast.If, ast.While, ast.IfExp)):
        yield from _conditions(node)
    elif isinstance(node, ast.Tuple):
        yield from _rows(node, parent)
    if isinstance(node, ast.stmt):
        yield from _statements(node)


def _comparisons(node: ast.Compare) -> Iterator[ast.AST]:
    for index, op in enumerate(node.ops):
        for other in _COMPARE[type(op)]:
            ops = [*node.ops[:index], other(), *node.ops[index + 1 :]]
            yield ast.Compare(node.left, ops, node.comparators)


def _logic(node: ast.BoolOp) -> Iterator[ast.AST]:
    yield ast.BoolOp(ast.Or() if isinstance(node.op, ast.And) else ast.And(), node.values)
    for index in range(len(node.values)):
        rest = node.values[:index] + node.values[index + 1 :]
        yield rest[0] if len(rest) == 1 else ast.BoolOp(node.op, rest)


def _constants(node: ast.Constant, parent: ast.AST) -> Iterator[ast.AST]:
    if isinstance(parent, (ast.Expr, ast.Subscript)):
        return  # a docstring; a key, without which nothing runs
    if isinstance(node.value, bool):
        yield ast.Constant(not node.value)
    elif isinstance(node.value, int):
        yield ast.Constant(node.value + 1)
        yield ast.Constant(node.value - 1)
    elif isinstance(node.value, str) and node.value:
        yield ast.Constant("?" + node.value)


def _conditions(node: ast.If | ast.While | ast.IfExp) -> Iterator[ast.AST]:
    for answer in (True, False):
        if answer and isinstance(node, ast.While):
            continue
        other = copy.copy(node)
        other.test = ast.Constant(answer)
        yield other


def _rows(node: ast.Tuple, parent: ast.AST) -> Iterator[ast.AST | None]:
    if len(node.elts) != _ROW_LENGTH or not isinstance(parent, (ast.Tuple, ast.GeneratorExp)):
        return
    if isinstance(parent, ast.Tuple):
        yield None
    for place, text in _ROW.items():
        if ast.unparse(node.elts[place]) != text:
            elements = [*node.elts]
            elements[place] = ast.parse(text, mode="eval").body
            yield ast.Tuple(elements, ast.Load())


def _statements(node: ast.stmt) -> Iterator[ast.AST | None]:
    if isinstance(node, ast.Return) and node.value is not None:
        yield ast.Return(ast.Constant(None))
    elif isinstance(node, _REMOVED) and not _is_docstring(node):
        yield None
    if isinstance(node, ast.AugAssign) and type(node.op) in _ARITHMETIC:
        yield ast.AugAssign(node.target, _ARITHMETIC[type(node.op)](), node.value)


def _is_docstring(node: ast.stmt) -> bool:
    return isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
