"""One installation, from a port to a controller that has greeted."""

from collections.abc import Callable
from dataclasses import dataclass

from footlight.install import copying, facts, reach
from footlight.install.errors import InstallError
from footlight.install.image import image
from footlight.install.prompt import Prompt
from footlight.link import slots
from footlight.link.channel import Channel
from footlight.link.replies import Greeting

Tell = Callable[[str], None]


@dataclass(frozen=True)
class Installed:
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


def install(
    address: str,
    open_stream: reach.Open,
    unix_s: int,
    *,
    replace: bool = False,
    stage: Tell = lambda text: None,
    progress: copying.Progress = lambda done, total: None,
) -> Installed:
    """Make the board at that port a controller of this version, or update it.

    `replace`: put it over a program that is none of ours; `unix_s`: the time for its journal [s since 1970];
    `stage` hears what is being done. Raises InstallError or LinkError; sequences and journal stay.
    """
    stage("asking for the board's prompt")
    stream = open_stream(address)
    try:
        prompt = reach.at_prompt(stream)
        found, made, files = _files_to(prompt, stage, replace, progress)
        stage("restarting")
        reach.restart(prompt, stream)
    finally:
        stream.close()
    channel = reach.greeted(address, open_stream, unix_s)
    try:
        return _result(channel, found, made, files)
    finally:
        channel.close()


def _files_to(
    prompt: Prompt, stage: Tell, replace: bool, progress: copying.Progress
) -> tuple[facts.Facts, copying.Plan, dict[str, bytes]]:
    found = facts.look(prompt)
    facts.check(found, prompt.name)
    stage(f"{found.machine}, MicroPython {found.version_text}: comparing files")
    files = image(found.mpy)
    made = copying.plan(prompt, files)
    if made.foreign and not replace:
        raise InstallError(
            f"{prompt.name}: the board runs a program that is not this controller's; "
            "save what you need of it, then add --replace"
        )
    stage(f"{len(made.write)} files to copy, {len(made.remove)} to remove")
    copying.carry_out(prompt, made, files, found.free_bytes, progress)
    return found, made, files


def _result(channel: Channel, found: facts.Facts, made: copying.Plan, files: dict[str, bytes]) -> Installed:
    assert channel.greeting is not None
    return Installed(
        port=channel.name,
        greeting=channel.greeting,
        micropython=found.version_text,
        machine=found.machine,
        compiled=any(path.endswith(".mpy") for path in files),
        written=list(made.write),
        removed=made.remove,
        written_bytes=sum(map(len, made.write.values())),
        sequences=len(slots.in_use(channel)),
    )
