"""Nothing of the tool needs a Unix: what Windows does not have is blocked, and everything still runs.

This is no Windows: what its own Python, its console and its serial ports do is not shown here.
"""

import ast
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
HOST = ROOT / "host" / "footlight"
UNIX_ONLY = (
    "curses",
    "fcntl",
    "grp",
    "posix",
    "pty",
    "pwd",
    "readline",
    "resource",
    "syslog",
    "termios",
    "tty",
)
# Each of these asks for the system first, and has another way where there is none of it.
ASKS_FIRST = {
    "notebook/leftovers.py": {"fcntl"},
    "bench/claim.py": {"fcntl"},
    "bench/keys.py": {"termios", "tty"},
    "bench/serve.py": {"tty"},
}
TEXT_CALLS = ("open", "read_text", "write_text", "fdopen", "NamedTemporaryFile")


def files() -> list[Path]:
    return sorted(HOST.rglob("*.py"))


def imported(nodes: list[ast.AST]) -> set[str]:
    names = {alias.name for node in nodes if isinstance(node, ast.Import) for alias in node.names}
    names |= {node.module or "" for node in nodes if isinstance(node, ast.ImportFrom)}
    return {name.split(".")[0] for name in names} & set(UNIX_ONLY)


def test_modules_of_unix_are_asked_for_where_there_is_another_way():
    assert len(files()) > 100
    found = {}
    for path in files():
        tree = ast.parse(path.read_text(encoding="utf-8"))
        assert imported(list(tree.body)) == set(), f"{path}: at its top"
        if names := imported(list(ast.walk(tree))):
            found[path.relative_to(HOST).as_posix()] = names
    assert found == ASKS_FIRST


def without_encoding(tree: ast.AST) -> list[int]:
    """Lines where text is opened, read or written in whatever encoding the system likes."""
    lines = []
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call):
            continue
        called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
        if isinstance(node.func, ast.Name) and called in ("read_text", "write_text"):
            continue  # a function of our own
        owner = getattr(getattr(node.func, "value", None), "id", "")
        words = [arg.value for arg in node.args if isinstance(arg, ast.Constant)]
        modes = [word for word in words if isinstance(word, str)]
        modes += [
            key.value.value
            for key in node.keywords
            if key.arg == "mode" and isinstance(key.value, ast.Constant)
        ]
        named = any(key.arg == "encoding" for key in node.keywords) or any(
            "utf-8" in str(mode) for mode in modes
        )
        binary = any("b" in str(mode) and len(str(mode)) < 4 for mode in modes)
        if called in TEXT_CALLS and owner not in ("Image", "os", "webbrowser") and not named and not binary:
            lines.append(node.lineno)
    return lines


# What they open is no file of text: a port, a connection.
NO_TEXT_FILES = {"link/transport.py", "notebook/book.py"}


def test_text_has_an_encoding():
    wrong = [
        f"{path.relative_to(HOST).as_posix()}:{line}"
        for path in files()
        if path.relative_to(HOST).as_posix() not in NO_TEXT_FILES and "box" not in path.parts
        for line in without_encoding(ast.parse(path.read_text(encoding="utf-8")))
    ]
    assert wrong == []


def test_the_alarm_for_encodings_rings():
    assert without_encoding(
        ast.parse("p.read_text()\np.open('w')\np.write_text(t, encoding='utf-8')\np.open('rb')")
    ) == [
        1,
        2,
    ]


# In a process of its own: what is not ours, and the standard library, have their Unix; footlight has none.
BARE = """
import asyncio, contextlib, ctypes, importlib, io, json, os, pkgutil, shutil, signal, subprocess, sys
import tempfile, types
import click, msgspec, numpy, platformdirs, rich.console, rich.live, rich.progress, scipy, serial
import jinja2, multipart, starlette.applications, starlette.testclient, tomlkit, uvicorn
import matplotlib.figure, mpremote.transport_serial, skimage, sqlite3, tifffile
import serial.tools.list_ports, serial.urlhandler.protocol_socket
from PIL import Image

class Blocked:
    def find_spec(self, name, path=None, target=None):
        if name.split(".")[0] in BLOCKED:
            raise ModuleNotFoundError(f"no module named {name} on this system", name=name)

BLOCKED = set(sys.argv[1].split(","))
for name in [name for name in sys.modules if name.split(".")[0] in BLOCKED]:
    del sys.modules[name]
sys.meta_path.insert(0, Blocked())
sys.modules["msvcrt"] = types.SimpleNamespace(LK_NBLCK=2, locking=lambda *words: None)
ctypes.windll = types.SimpleNamespace(kernel32=types.SimpleNamespace(GetDriveTypeW=lambda root: 3))
for name in ("SIGHUP", "SIGUSR1", "SIGALRM"):
    delattr(signal, name)
for name in ("openpty", "ttyname", "fork", "getuid"):
    delattr(os, name)
sys.platform = "win32"

import footlight
for module in pkgutil.walk_packages(footlight.__path__, "footlight."):
    if ".bench.box" not in module.name:
        importlib.import_module(module.name)

from footlight.bench import claim
claim.os = types.SimpleNamespace(**{**vars(os), "name": "nt"})
from footlight.cli.main import run

def typed(*words):
    sys.argv = ["footlight", *words]
    out = io.TextIOWrapper(io.BytesIO(), encoding="cp1252")
    with contextlib.redirect_stdout(out):
        try:
            run()
        except SystemExit as end:
            code = end.code
    out.flush()
    text = out.buffer.getvalue().decode("cp1252")
    assert code in (0, None), (words, code, text)
    return text

for words in json.loads(sys.argv[2]):
    print("ran", words[0], len(typed(*words)))
"""
TYPED = [
    ["--help"],
    ["new", "reversal-print"],
    ["plan", "reversal-print.toml"],
    ["plan", "reversal-print.toml", "--json"],
    ["light", "time", "6 s, 620 mm, f/11", "800 mm"],
    ["camera", "time", "EV 12", "f/22", "--ei", "4"],
    ["mix", "bath", "peroxide-bleach", "1 L", "--stock", "35 % w/w", "--citric", "anhydrous"],
    ["read", "sample", "strip.tif", "--ppi", "150"],
    ["settings", "set", "port", "COM3"],
    ["settings"],
    [
        "bench",
        "reversal-print.toml",
        "--plain",
        "--for",
        "0.5",
        "--interpreter",
        "cpython",
        "--folder",
        "bench",
    ],
    ["sheets", "--notebook", "bench/notebook.sqlite"],
    ["backup", "copy.sqlite", "--notebook", "bench/notebook.sqlite"],
    ["export", "out.json", "--notebook", "bench/notebook.sqlite"],
    ["restore", "out.json", "--notebook", "again.sqlite"],
    ["manual"],
]


def test_everything_runs_without_a_unix(tmp_path: Path):
    blocked = ",".join(name for name in UNIX_ONLY if name != "posix")
    env = {name: value for name, value in os.environ.items() if not name.startswith(("FOOTLIGHT_", "XDG_"))}
    done = subprocess.run(
        [sys.executable, "-c", BARE, blocked, json.dumps(TYPED)],
        cwd=tmp_path,
        env=env | {"HOME": str(tmp_path), "PYTHONUTF8": "0", "LC_ALL": "C", "PYTHONIOENCODING": "cp1252"},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        encoding="cp1252",
        timeout=120,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert [line.split()[1] for line in done.stdout.splitlines() if line.startswith("ran")] == [
        words[0] for words in TYPED
    ]


@pytest.mark.parametrize("encoding", ["cp1252", "ascii"])
def test_json_loses_nothing_in_a_narrow_pipe(tmp_path: Path, encoding: str):
    env = os.environ | {"FOOTLIGHT_SETTINGS": str(tmp_path / "é✓.toml"), "PYTHONIOENCODING": encoding}
    done = subprocess.run(
        [sys.executable, "-c", "from footlight.cli.main import run; run()", "settings", "--json"],
        env=env,
        capture_output=True,
        timeout=30,
        check=True,
    )
    assert json.loads(done.stdout.decode(encoding))["file"] == str(tmp_path / "é✓.toml")
