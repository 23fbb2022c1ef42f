"""Who may import whom: the house of DEVELOPERS.md, kept by reading the imports."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
FIRMWARE = ROOT / "firmware"
HOST = ROOT / "host" / "footlight"

MATHEMATICS = {"light", "camera", "chemistry", "tones"}
COMMON = {"errors", "kinds", "quantities", "__init__"}
CORE_ARROWS = {
    "errors": set(),
    "effects": set(),
    "gestures": set(),
    "duty": {"dose"},
    "states": set(),
    "program": {"errors", "states"},
    "sensor": set(),
    "dose": {"sensor"},
    "wire": {"errors", "sensor"},
    "tally": {"program"},
    "run": {"program", "tally", "dose"},
    "records": {"wire", "effects"},
    "recovery": {"records", "tally"},
    "guards": {"states", "program", "run"},
    "actions": {"states", "program", "run", "effects", "records", "dose"},
    "entries": {"states", "program", "effects", "records", "actions", "guards"},
    "table": {"states", "actions", "guards"},
    "sequencer": {"states", "program", "run", "effects", "records", "duty", "entries", "table"},
    "session": {"errors", "program", "records", "wire"},
}
HOST_ARROWS = {
    "errors": set(),
    "kinds": set(),
    "quantities": {"errors"},
    "whole_file": {"errors"},
    "light": COMMON | MATHEMATICS,
    "camera": COMMON | MATHEMATICS,
    "chemistry": COMMON | MATHEMATICS,
    "tones": COMMON | {"light"},
    "sequence": COMMON | MATHEMATICS | {"core.program", "core.errors"},
    "link": COMMON | {"meanings", "core.wire", "core.records", "core.session", "core.errors", "core.program"},
    "meanings": {"core.states", "core.dose"},
    "bench": COMMON | {"firmware_files", "meanings"},
    "firmware_files": COMMON,
    "folders": set(),
    "settings": COMMON | {"folders"},
    "install": COMMON | {"link", "firmware_files", "meanings", "core.states"},
    "strips": COMMON | {"light"},
    "notebook": COMMON
    | {"whole_file", "folders", "core.records", "core.recovery", "core.errors", "core.program", "core.wire"},
    "baths": COMMON | {"notebook", "chemistry", "sequence", "core.program", "core.records"},
    "report": COMMON
    | MATHEMATICS
    | {"core.records", "core.states", "core.dose", "whole_file", "meanings", "notebook", "strips"}
    | {"baths", "sequence"},
}
HOST_ARROWS["written"] = COMMON | MATHEMATICS | {"sequence"}
BELOW_ACTIONS = set(HOST_ARROWS) | {"core." + name for name in CORE_ARROWS}
HOST_ARROWS["actions"] = COMMON | BELOW_ACTIONS | {"examples"}
# A view knows what it shows; it opens no port, no notebook and no board.
HOST_ARROWS["views"] = COMMON | {"actions"} | BELOW_ACTIONS - {"link", "install", "settings", "whole_file"}
# The desk asks, has it done, and tells; names of types and closed sets it may know wherever they lie.
HOST_ARROWS["desk"] = HOST_ARROWS["views"] | {"views", "written", "examples"}
TOUCH_CHIP = {"keyboard", "boot", "main", "board", "lamp", "countdown", "port", "guard"}
TOUCH_FILES = {"files", "journal", "board", "main"}


def imports(path: Path) -> set[str]:
    """Every module that a file imports, anywhere in it; `from a import b` counts as a and as a.b."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            # Only the core imports relatively: a short name in each compiled file.
            module = ".".join(filter(None, ("footlight_core" if node.level else "", node.module)))
            found.add(module)
            found |= {f"{module}.{alias.name}" for alias in node.names}
    return found


def core_files() -> list[Path]:
    return sorted(path for path in (FIRMWARE / "footlight_core").glob("*.py") if path.stem != "__init__")


def host_files() -> list[Path]:
    return sorted(path for path in HOST.rglob("*.py") if "box" not in path.parts)


def room_of(path: Path) -> str:
    return path.relative_to(HOST).parts[0].removesuffix(".py")


def host_rooms(path: Path) -> set[str]:
    """The rooms of the house that a host file reaches into, its own left out."""
    rooms = set()
    for module in imports(path):
        parts = module.split(".")
        if parts[0] == "footlight" and len(parts) > 1:
            rooms.add(parts[1])
        elif parts[0] == "footlight_core" and len(parts) > 1:
            rooms.add("core." + parts[1])
    if room_of(path) == "bench":
        # The bench runs the firmware, and may know all of it.
        rooms = {room for room in rooms if not room.startswith("core.")}
    return {room for room in rooms if not room.startswith("_")} - {room_of(path)}


@pytest.mark.parametrize("path", core_files(), ids=lambda path: path.stem)
def test_core(path: Path):
    names = set(CORE_ARROWS)
    used = {
        part
        for module in imports(path)
        for part in module.split(".")[1:2]
        if module.startswith("footlight_core")
    }
    assert path.stem in names, "a new file of the core: give it its arrows here and in DEVELOPERS.md"
    assert (used & names) - {path.stem} <= CORE_ARROWS[path.stem]


@pytest.mark.parametrize("path", core_files(), ids=lambda path: path.stem)
def test_core_is_pure(path: Path):
    allowed = {"json", "binascii"}
    outside = {module.split(".")[0] for module in imports(path)} - {"footlight_core"}
    assert outside <= allowed
    names = [node.id for node in ast.walk(ast.parse(path.read_text())) if isinstance(node, ast.Name)]
    assert "open" not in names


def test_controller():
    files = sorted((FIRMWARE / "controller").glob("*.py")) + [FIRMWARE / "main.py", FIRMWARE / "boot.py"]
    assert len(files) >= 10
    for path in files:
        used = {module.split(".")[0] for module in imports(path)}
        assert not used & {"machine", "rp2"} or path.stem in TOUCH_CHIP, path
        assert not used & {"os", "vfs"} or path.stem in TOUCH_FILES, path
        assert "footlight" not in used, path


@pytest.mark.parametrize("path", host_files(), ids=lambda path: str(path.relative_to(HOST)))
def test_host(path: Path):
    room = room_of(path)
    if room in ("cli", "__init__", "examples", "api"):
        return
    assert room in HOST_ARROWS, "a new room: give it its arrows here and in DEVELOPERS.md"
    assert host_rooms(path) <= HOST_ARROWS[room]


# What a command may call: it asks (readers of what was typed), has it done, and tells. The mathematics is
# data in and a frozen result out already; an action that only passes it on would be a step for nothing.
CLI_CALLS = {"actions", "views", "written", "quantities", "errors", "settings", "examples", "whole_file"}
CLI_CALLS |= MATHEMATICS | {"desk"}
CLI_SHARED = {"options", "table", "terminal", "types", "description", "manual_page", "manual_text"}


# Commands that are still to be cut in two; each that has been is struck from here.
NOT_CUT_YET = {"light/fog.py", "light/strip/crossed.py", "light/strip/fog.py", "light/strip/shared.py"}


def calls_of(path: Path) -> set[str]:
    """The modules of the tool that a command uses as it runs; names of types and closed sets are free."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for_types = {
        id(inner)
        for node in ast.walk(tree)
        if isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING"
        for inner in ast.walk(node)
    }
    return {
        f"{node.module}.{alias.name}"
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] == "footlight"
        if id(node) not in for_types
        for alias in node.names
        if not alias.name[0].isupper()
    }


@pytest.mark.parametrize(
    "path", sorted((HOST / "cli").rglob("*.py")), ids=lambda path: str(path.relative_to(HOST))
)
def test_commands_ask_and_tell(path: Path):
    group = ".".join(path.relative_to(HOST).parts[:-1])
    beyond = sorted(module for module in calls_of(path) if not may_call(group, module))
    if path.relative_to(HOST / "cli").as_posix() in NOT_CUT_YET:
        assert beyond, "it is cut: strike it from NOT_CUT_YET"
    else:
        assert beyond == []


# As a command it may do sums with the mathematics, data in and a frozen result out.
DESK_CALLS = {"actions", "views", "written", "quantities", "errors", "desk"} | MATHEMATICS


@pytest.mark.parametrize("path", sorted((HOST / "desk").glob("*.py")), ids=lambda path: path.name)
def test_the_desk_asks_and_tells(path: Path):
    beyond = {module for module in calls_of(path) if module.split(".")[1] not in DESK_CALLS}
    assert beyond <= {"footlight.errors"}


def test_only_the_desk_knows_its_server():
    parts = {"starlette", "uvicorn", "jinja2", "markupsafe"}
    users = {room_of(path) for path in host_files() if parts & {name.split(".")[0] for name in imports(path)}}
    assert users == {"desk"}


def may_call(group: str, module: str) -> bool:
    """May a command of that folder call it? `cli.light` may use what lies beside it; no command a command."""
    room, _, name = module.removeprefix("footlight.").partition(".")
    if room == "cli":
        is_beside = group != "cli" and module.startswith("footlight." + ".".join(group.split(".")[:2]) + ".")
        return is_beside or name.split(".")[0] in CLI_SHARED | {"main"}
    return room in CLI_CALLS or module.startswith(("footlight.notebook.place.", "footlight.__"))


def test_only_commands_know_click():
    users = {
        room_of(path) for path in host_files() if "click" in {name.split(".")[0] for name in imports(path)}
    }
    assert users <= {"cli"}


def test_only_transport_knows_pyserial():
    users = [
        path for path in host_files() if any(module.split(".")[0] == "serial" for module in imports(path))
    ]
    assert [path.relative_to(HOST).as_posix() for path in users] == ["link/transport.py"]
