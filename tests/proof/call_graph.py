"""Who can call whom in the firmware, read from its syntax trees: rather too many ways than too few.

What is followed exactly: names of the same file, imported ones, `self.x` within its class, `Class.x`,
`super().x`. Any other `.x(…)` leads to every method of that name. What is handed on counts as called by
whoever hands it on, and by whoever calls the field or parameter in which it arrives; what stands in a table
at a file's top counts as called by whoever calls an item of something. What it cannot follow: a value that
one function leaves and another one acts on, and a method only mentioned that has the name of some field.
"""

import ast
from collections import defaultdict, deque
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

Name = tuple[str, str]  # (module, function or Class.method)
BODY = "<module>"
_INIT = ".__init__"
_DEF = (ast.FunctionDef, ast.AsyncFunctionDef)


@dataclass
class Module:
    """A file: its functions, its classes with their methods and bases, what imported names stand for."""

    name: str
    is_package: bool = False
    functions: dict[str, ast.AST] = field(default_factory=dict)
    classes: dict[str, list[str]] = field(default_factory=dict)
    bases: dict[str, list[str]] = field(default_factory=dict)
    imports: dict[str, Name] = field(default_factory=dict)


@dataclass(frozen=True)
class Place:
    """A function, where names are read."""

    module: Module
    function: str

    @property
    def own_class(self) -> str:
        """The class of a method, "" of a function."""
        return self.function.rpartition(".")[0]


class CallGraph:
    """The graph of sources given by module name."""

    def __init__(self, sources: dict[str, str]) -> None:
        modules = [_module(name, source) for name, source in sources.items()]
        self.modules = {module.name: module for module in modules}
        self._methods: dict[str, set[Name]] = defaultdict(set)
        self._fields: dict[str, list[tuple[Place, ast.expr]]] = defaultdict(list)
        self._calls_of: dict[str, list[tuple[Place, ast.Call]]] = defaultdict(list)
        for place, tree in self._places():
            self._collect(place, tree)
        self._tabled = {
            name
            for place, tree in self._places()
            if place.function.endswith(BODY)
            for name in self._mentioned(place, tree)
        }
        self.calls = {
            (place.module.name, place.function): self._leads(place, tree) for place, tree in self._places()
        }

    def way(self, sources: list[Name], target: Name) -> list[Name] | None:
        """The shortest way from any of these functions to the target; None if there is none."""
        before: dict[Name, Name | None] = dict.fromkeys(sources)
        waiting = deque(sources)
        while waiting:
            name = waiting.popleft()
            if name == target:
                return list(_back(before, name))[::-1]
            for following in sorted(self.calls.get(name, ())):
                if following not in before:
                    before[following] = name
                    waiting.append(following)
        return None

    def functions(self, module: str) -> list[Name]:
        """Everything that this module defines."""
        return [(module, function) for function in self.modules[module].functions]

    # -- what is where -----------------------------------------------------------------------------

    def _places(self) -> Iterator[tuple[Place, ast.AST]]:
        for module in self.modules.values():
            for function, tree in module.functions.items():
                yield Place(module, function), tree

    def _collect(self, place: Place, tree: ast.AST) -> None:
        owner, _, short = place.function.rpartition(".")
        if owner and short != BODY:
            self._methods[short].add((place.module.name, place.function))
        for node in ast.walk(tree):
            if isinstance(node, ast.Assign | ast.AnnAssign) and node.value:
                targets = node.targets if isinstance(node, ast.Assign) else [node.target]
                for target in targets:
                    if isinstance(target, ast.Attribute):
                        self._fields[target.attr].append((place, node.value))
            elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name | ast.Attribute):
                short = node.func.id if isinstance(node.func, ast.Name) else node.func.attr
                self._calls_of[short].append((place, node))

    # -- what leads where --------------------------------------------------------------------------

    def _leads(self, place: Place, tree: ast.AST) -> set[Name]:
        leads = self._mentioned(place, tree)
        for node in ast.walk(tree):
            if isinstance(node, ast.Call):
                leads |= self._called(place, tree, node.func)
        return leads

    def _called(self, place: Place, tree: ast.AST, callee: ast.expr) -> set[Name]:
        if isinstance(callee, ast.Name):
            return self._exact(place, callee) or self._arrived(place, callee.id)
        if isinstance(callee, ast.Attribute):
            if self._is_exact(place, callee):
                return self._exact(place, callee)
            return self._methods.get(callee.attr, set()) | self._held(callee.attr)
        if isinstance(callee, ast.Call) and isinstance(callee.func, ast.Name) and callee.func.id == "getattr":
            return self._by_text(place, callee)
        return self._tabled

    def _mentioned(self, place: Place, tree: ast.AST) -> set[Name]:
        """Functions that are read as values, or called, by names that can be followed."""
        names: set[Name] = set()
        for node in ast.walk(tree):
            if isinstance(node, ast.Name | ast.Attribute) and isinstance(node.ctx, ast.Load):
                names |= self._exact(place, node)
                if isinstance(node, ast.Attribute) and node.attr not in self._fields:
                    names |= set() if self._is_exact(place, node) else self._methods.get(node.attr, set())
        return names

    def _is_exact(self, place: Place, node: ast.Attribute) -> bool:
        if _is_super(node.value) or self._class_at(place, node.value):
            return True
        if not isinstance(node.value, ast.Name):
            return False
        own = place.module.classes.get(place.own_class, ())
        is_own = node.value.id == "self" and node.attr in own
        return is_own or self._file_of(place, node.value.id) != "" or self._is_foreign(place, node.value.id)

    def _exact(self, place: Place, node: ast.Name | ast.Attribute) -> set[Name]:
        module = place.module
        if isinstance(node, ast.Name):
            return self._of_name(module, node.id)
        if not self._is_exact(place, node):
            return set()
        if _is_super(node.value):
            owners = [self._of_class(module, base) for base in module.bases.get(place.own_class, ())]
            return self._methods_of(owners, node.attr)
        owner = self._class_at(place, node.value)
        if owner:
            return self._methods_of([owner], node.attr)
        assert isinstance(node.value, ast.Name)
        if node.value.id == "self":
            return {(module.name, f"{place.own_class}.{node.attr}")}
        file = self._file_of(place, node.value.id)
        return self._of_name(self.modules[file], node.attr) if file else set()

    def _of_name(self, module: Module, name: str) -> set[Name]:
        if name in module.functions:
            return {(module.name, name)}
        if name in module.classes:
            return {(module.name, f"{name}.__init__")} if "__init__" in module.classes[name] else set()
        owner, original = module.imports.get(name, ("", ""))
        return self._of_name(self.modules[owner], original) if owner in self.modules and original else set()

    def _class_at(self, place: Place, node: ast.expr) -> Name | None:
        """The firmware's class that an expression names."""
        owner = None
        if isinstance(node, ast.Name):
            owner = self._of_class(place.module, node.id)
        elif isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
            file = self._file_of(place, node.value.id)
            owner = (file, node.attr) if file else None
        is_known = owner and owner[0] in self.modules and owner[1] in self.modules[owner[0]].classes
        return owner if is_known else None

    def _methods_of(self, owners: list[Name], method: str) -> set[Name]:
        return {(owner, f"{name}.{method}") for owner, name in owners if self._has(owner, name, method)}

    def _of_class(self, module: Module, name: str) -> Name:
        return (module.name, name) if name in module.classes else module.imports.get(name, ("", ""))

    def _has(self, module: str, owner: str, method: str) -> bool:
        return module in self.modules and method in self.modules[module].classes.get(owner, ())

    def _file_of(self, place: Place, name: str) -> str:
        """The firmware's module that a name stands for in this file, or ""."""
        owner, original = place.module.imports.get(name, ("", ""))
        whole = f"{owner}.{original}" if original else owner
        return whole if whole in self.modules else ""

    def _is_foreign(self, place: Place, name: str) -> bool:
        """A module that is not the firmware's: it calls nothing back but what is handed to it."""
        owner, original = place.module.imports.get(name, ("", ""))
        return bool(owner) and not original and owner not in self.modules

    # -- what arrives somewhere else ---------------------------------------------------------------

    def _held(self, attribute: str) -> set[Name]:
        """What a field of this name may hold."""
        names: set[Name] = set()
        for place, value in self._fields.get(attribute, ()):
            names |= self._mentioned(place, value)
            if isinstance(value, ast.Name):
                names |= self._arrived(place, value.id)
        return names

    def _arrived(self, place: Place, parameter: str) -> set[Name]:
        """What may be handed to this function as a parameter of this name."""
        tree = place.module.functions[place.function]
        if not isinstance(tree, _DEF) or parameter not in [arg.arg for arg in _all_arguments(tree)]:
            return set()
        short = place.function.rpartition(".")[2]
        callers = self._calls_of[place.own_class if short == "__init__" else short]
        names: set[Name] = set()
        for caller, call in callers:
            for value in [*call.args, *(keyword.value for keyword in call.keywords)]:
                names |= self._mentioned(caller, value)
        return names

    def _by_text(self, place: Place, call: ast.Call) -> set[Name]:
        """`getattr(x, …)()`: of its own class everything, of anything else all methods of the firmware."""
        owner = call.args[0] if call.args else None
        if isinstance(owner, ast.Name) and owner.id == "self" and place.own_class:
            own = place.module.classes[place.own_class]
            return {(place.module.name, f"{place.own_class}.{method}") for method in own}
        return set().union(*self._methods.values())


def read_sources(*folders: Path) -> dict[str, str]:
    """Every Python file below these folders, by the name under which it is imported."""
    files = [(folder, file) for folder in folders for file in sorted(folder.rglob("*.py"))]
    named = {".".join(file.relative_to(folder).with_suffix("").parts): file for folder, file in files}
    return {name: file.read_text("utf-8") for name, file in named.items()}


def _module(name: str, source: str) -> Module:
    module, tree = Module(name.removesuffix(_INIT), name.endswith(_INIT)), ast.parse(source)
    rest: list[ast.stmt] = []
    for node in tree.body:
        if isinstance(node, _DEF):
            module.functions[node.name] = node
        elif isinstance(node, ast.ClassDef):
            _read_class(module, node)
        else:
            rest.append(node)
    module.functions[BODY] = ast.Module(rest, [])
    for node in ast.walk(tree):
        _read_import(module, node)
    return module


def _read_class(module: Module, node: ast.ClassDef) -> None:
    methods = [item for item in node.body if isinstance(item, _DEF)]
    module.classes[node.name] = [method.name for method in methods]
    module.bases[node.name] = [base.id for base in node.bases if isinstance(base, ast.Name)]
    for method in methods:
        module.functions[f"{node.name}.{method.name}"] = method
    others = [item for item in node.body if item not in methods]
    module.functions[f"{node.name}.{BODY}"] = ast.Module(others, [])


def _read_import(module: Module, node: ast.AST) -> None:
    if isinstance(node, ast.Import):
        for alias in node.names:
            module.imports[alias.asname or alias.name.partition(".")[0]] = (alias.name, "")
    elif isinstance(node, ast.ImportFrom):
        for alias in node.names:
            module.imports[alias.asname or alias.name] = (_origin(module, node), alias.name)


def _origin(module: Module, node: ast.ImportFrom) -> str:
    """The module that it imports from; a package's own body imports from itself (`from . import …`)."""
    package = module.name if module.is_package else module.name.rpartition(".")[0]
    for _ in range(node.level - 1):
        package = package.rpartition(".")[0]
    return ".".join(filter(None, [package if node.level else "", node.module or ""]))


def _all_arguments(tree: ast.FunctionDef | ast.AsyncFunctionDef) -> list[ast.arg]:
    arguments = tree.args
    return [*arguments.posonlyargs, *arguments.args, *arguments.kwonlyargs]


def _is_super(node: ast.expr) -> bool:
    return isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "super"


def _back(before: dict[Name, Name | None], name: Name | None) -> Iterator[Name]:
    while name is not None:
        yield name
        name = before[name]
