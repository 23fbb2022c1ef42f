"""Install the firmware: from a port to a controller that has greeted."""

from collections.abc import Callable
from dataclasses import dataclass

from footlight.errors import field
from footlight.install import copy_files, facts, ports, reach
from footlight.install.errors import InstallError
from footlight.install.image import image
from footlight.install.prompt import Prompt
from footlight.link import slots, transport
from footlight.link.channel import Channel
from footlight.link.replies import Greeting

Tell = Callable[[str], None]


@dataclass(frozen=True)
class Installation:
    """What was done. `written`, `removed`: paths on the board; `sequences`: how many it holds."""

    port: str
    greeting: Greeting
    micropython: str
    machine: str
    compiled: bool
    written: list[str]
    removed: list[str]
    written_bytes: int
    sequences: int


def install_firmware(
    port: str | None,
    unix_s: int,
    *,
    open_stream: reach.Open = transport.open_stream,
    list_ports: Callable[[], list[transport.Port]] = transport.list_all,
    replace: bool = False,
    stage: Tell = lambda text: None,
    progress: copy_files.Progress = lambda done, total: None,
) -> Installation:
    """Make the board at `port`, or the only one, a controller of this version, or update it.

    `replace`: put it over a program that is none of ours; `unix_s`: the time for its journal [s since 1970];
    `stage` hears what is being done. Raises InstallError or LinkError; sequences and journal stay.
    """
    address = port or ports.choose(list_ports)
    stage("asking for the board's prompt")
    stream = open_stream(address)
    try:
        prompt = reach.at_prompt(stream)
        board, made, files = _files_to(prompt, stage, replace, progress)
        stage("restarting")
        reach.restart(prompt, stream)
    finally:
        stream.close()
    channel = reach.greeted(address, open_stream, unix_s)
    try:
        return _result(channel, board, made, files)
    finally:
        channel.close()


def _files_to(
    prompt: Prompt, stage: Tell, replace: bool, progress: copy_files.Progress
) -> tuple[facts.Facts, copy_files.Plan, dict[str, bytes]]:
    board = facts.look(prompt)
    facts.check(board, prompt.name)
    stage(f"{board.machine}, MicroPython {board.version_text}: comparing files")
    files = image(board.mpy)
    made = copy_files.plan(prompt, files)
    if made.foreign and not replace:
        raise InstallError(
            f"{prompt.name}: the board runs a program that is not this controller's; "
            f"save what you need of it, then add {field('replace')}"
        )
    stage(f"{len(made.write)} files to copy, {len(made.remove)} to remove")
    copy_files.carry_out(prompt, made, files, board.free_bytes, progress)
    return board, made, files


def _result(
    channel: Channel, board: facts.Facts, made: copy_files.Plan, files: dict[str, bytes]
) -> Installation:
    assert channel.greeting is not None
    return Installation(
        port=channel.name,
        greeting=channel.greeting,
        micropython=board.version_text,
        machine=board.machine,
        compiled=any(path.endswith(".mpy") for path in files),
        written=list(made.write),
        removed=made.remove,
        written_bytes=sum(map(len, made.write.values())),
        sequences=len(slots.in_use(channel)),
    )
