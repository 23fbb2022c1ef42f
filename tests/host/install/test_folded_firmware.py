"""Folding the firmware itself: every value is the right one, nothing else has changed, nothing is missing."""

import ast
import builtins
import dis
import json
import os
import shutil
import subprocess
import sys
import types
from collections.abc import Iterator
from typing import Any

import pytest
from tests.host.install.folded_firmware import FIRMWARE, SHORT, SOURCES, USERS

Written = tuple[str, str]


# -- nothing else has changed, and every value is the right one ------------------------------------


def differences(was: Any, now: Any) -> Iterator[Written]:
    """(expression, what is written in its place); fails at any other difference but what is left out."""
    if isinstance(was, ast.AST):
        yield from _of_nodes(was, now)
    elif isinstance(was, list):
        assert len(was) == len(now)
        for one, other in zip(was, now, strict=True):
            yield from differences(one, other)
    else:
        assert (type(was), was) == (type(now), now)


def _of_nodes(was: Any, now: Any) -> Iterator[Written]:
    if isinstance(was, ast.ImportFrom) and isinstance(now, ast.ImportFrom):
        assert (was.module, was.level) == (now.module, now.level)
        assert {ast.dump(name) for name in now.names} <= {ast.dump(name) for name in was.names}
    elif type(was) is type(now):
        for field in was._fields:
            yield from differences(getattr(was, field), getattr(now, field))
    elif isinstance(now, ast.Pass):
        assert isinstance(was, ast.ImportFrom | ast.Assign), ast.unparse(was)
    else:
        assert isinstance(was, ast.Name | ast.Attribute), ast.unparse(was)
        yield ast.unparse(was), repr(ast.literal_eval(now))


# The firmware is really imported, and says what each expression is worth where it stands.
_WITNESS = """
import importlib, json, sys
from unittest.mock import MagicMock
sys.modules.update({name: MagicMock() for name in ("machine", "micropython", "rp2")})
wrong = []
for module, expression, written in json.load(sys.stdin):
    value = eval(expression, vars(importlib.import_module(module)))
    if repr(value) != written:
        wrong.append((module, expression, repr(value), written))
print(json.dumps(wrong))
"""


def test_every_value_is_that_of_the_name_and_nothing_else_has_changed():
    asked = [
        (path.removesuffix(".py").removesuffix("/__init__").replace("/", "."), *one)
        for path, text in SOURCES.items()
        for one in sorted(set(differences(ast.parse(text), ast.parse(SHORT[path]))))
    ]
    assert len(asked) > 300
    assert ("footlight_core.entries", "st.LIT", "'lit'") in asked
    told = subprocess.run(
        [sys.executable, "-c", _WITNESS],
        input=json.dumps(asked),
        env=os.environ | {"PYTHONPATH": str(FIRMWARE)},
        capture_output=True,
        text=True,
        check=True,
    )
    assert json.loads(told.stdout) == []


# -- whatever Python runs the tool -----------------------------------------------------------------


_FOLDS = """
import json, sys
from footlight.install.folding import folded
print(json.dumps(folded(*json.load(sys.stdin))))
"""


def runs(python: str) -> bool:
    """Is there such a Python here?"""
    return subprocess.run([python, "-c", ""], capture_output=True, check=False).returncode == 0


@pytest.mark.parametrize("minor", [11, 12, 13, 14])
def test_every_python_folds_to_the_same_text(minor: int):
    """Hashes of what is made of it decide what an update copies."""
    python = shutil.which(f"python3.{minor}")
    if python is None or not runs(python):
        pytest.skip(f"no Python 3.{minor} here")
    told = subprocess.run(
        [python, "-c", _FOLDS],
        input=json.dumps([SOURCES, USERS]),
        env=os.environ | {"PYTHONPATH": os.pathsep.join([str(FIRMWARE), str(FIRMWARE.parent / "host")])},
        capture_output=True,
        text=True,
        check=True,
    )
    assert json.loads(told.stdout) == SHORT


# -- nothing is missing ----------------------------------------------------------------------------


def unknown(text: str) -> set[str]:
    """Names that the file's code looks for, and that neither the file nor Python has."""
    wanted, given = set(), set(dir(builtins))
    codes = [compile(text, "", "exec")]
    for code in codes:
        codes += [constant for constant in code.co_consts if isinstance(constant, types.CodeType)]
        for step in dis.get_instructions(code):
            if step.opname in ("LOAD_NAME", "LOAD_GLOBAL"):
                wanted.add(step.argval)
            elif step.opname in ("STORE_NAME", "STORE_GLOBAL"):
                given.add(step.argval)
    return wanted - given - {"__name__"}


def test_no_name_is_left_over_unbound():
    assert unknown("A = 1\ndef f():\n    return A + B\n") == {"B"}
    # The lamp's program is written in words of its own, and the sources have no other that is unknown.
    words = {"block", "in_", "jmp", "label", "mov", "noblock", "not_x", "osr", "out", "pin", "pull", "push"}
    words |= {"set", "x", "x_dec", "y", "y_dec"}
    for path, text in SHORT.items():
        assert unknown(text) <= (words if path == "controller/lamp.py" else set()), path


def taken(path: str, text: str) -> Iterator[tuple[str, str]]:
    """(file, name) of all that a text takes from the firmware's files, by import or by a dot."""
    here = path.rpartition("/")[0]
    files: dict[str, str] = {}
    nodes = list(ast.walk(ast.parse(text)))
    for node in nodes:
        if isinstance(node, ast.ImportFrom):
            base = "/".join(filter(None, [here if node.level else "", (node.module or "").replace(".", "/")]))
            for alias in node.names:
                if f"{base}/{alias.name}.py" in SHORT:
                    files[alias.asname or alias.name] = f"{base}/{alias.name}.py"
                else:
                    yield from ((file, alias.name) for file in (f"{base}.py", f"{base}/__init__.py"))
    for node in nodes:
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id in files:
            yield files[node.value.id], node.attr


def outer(text: str) -> Iterator[str]:
    """The names that a file gives to others."""
    for node in ast.parse(text).body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            yield node.name
        elif isinstance(node, ast.ImportFrom | ast.Import):
            yield from (alias.asname or alias.name for alias in node.names)
        for target in getattr(node, "targets", []):
            yield from (name.id for name in ast.walk(target) if isinstance(name, ast.Name))


def test_all_that_is_taken_from_a_file_is_there():
    given = {path: set(outer(text)) for path, text in SHORT.items()}
    count = 0
    for path, text in (SHORT | USERS).items():
        for file, name in taken(path, text):
            if file in given:
                assert name in given[file], f"{path} takes {name} from {file}"
                count += 1
    assert count > 200
    assert "WHITE" in given["controller/pins.py"] and "LED" not in given["controller/pins.py"]
