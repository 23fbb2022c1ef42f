"""What an installation did, told to a person and to a script; the rule that lets one use the port."""

from typing import Any

from footlight.actions.install_firmware import Installation

# Only people at this computer's seat get the port, and no group has to be joined.
UDEV_RULE = 'SUBSYSTEM=="tty", ATTRS{idVendor}=="2e8a", ATTRS{idProduct}=="0005", MODE="0660", TAG+="uaccess"'
UDEV_FILE = "/etc/udev/rules.d/60-footlight.rules"


def installation_line(done: Installation) -> str:
    """What is on the board now, and how it came there."""
    files = "compiled" if done.compiled else "as sources ('pip install footlight[bench]' compiles them)"
    changed = (
        f"{len(done.written)} files, {done.written_bytes} bytes, {files}" if done.written else "no change"
    )
    return (
        f"{done.port}: controller {done.greeting.id} is ready (build {done.greeting.build}, "
        f"MicroPython {done.micropython}): {changed}; {done.sequences} sequences kept"
    )


def installation_dict(done: Installation) -> dict[str, Any]:
    """The same for a script."""
    return {
        "port": done.port,
        "controller": done.greeting.id,
        "build": done.greeting.build,
        "agreed": done.greeting.agreed,
        "micropython": done.micropython,
        "board": done.machine,
        "compiled": done.compiled,
        "written": done.written,
        "removed": done.removed,
        "bytes_written": done.written_bytes,
        "sequences": done.sequences,
    }
