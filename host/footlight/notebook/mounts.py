"""Is a folder on another computer? Then its locks cannot be trusted, and a notebook there can be spoiled.

SQLite's own documentation warns of it ('How to corrupt an SQLite database file', on file locking).
"""

import sys
from pathlib import Path

_NETWORK = {
    "9p",
    "acfs",
    "afpfs",
    "afs",
    "beegfs",
    "ceph",
    "cifs",
    "coda",
    "davfs",
    "ftp",
    "gfs2",
    "glusterfs",
    "gpfs",
    "lustre",
    "ncpfs",
    "nfs",
    "nfs4",
    "ocfs2",
    "orangefs",
    "smb3",
    "smbfs",
    "sshfs",
    "webdav",
}
_DRIVE_REMOTE = 4  # of GetDriveTypeW


def network_kind(path: Path) -> str | None:
    """The kind of network file system that `path` lies on, or None when it is a disk of this computer."""
    if sys.platform == "win32":
        return _on_windows(path)
    if sys.platform == "darwin":
        import subprocess  # only here and below: no other system shall wait for what it does not need

        listing = subprocess.run(["/sbin/mount"], capture_output=True, text=True, check=False).stdout
        return kind_in(read_mount_listing(listing), path)
    mounts = Path("/proc/self/mountinfo")
    return kind_in(read_mountinfo(mounts.read_text("utf-8")), path) if mounts.exists() else None


def read_mountinfo(text: str) -> list[tuple[str, str]]:
    """Linux: lines of proc(5) `mountinfo` -> (mount point, type)."""
    mounts = []
    for line in text.splitlines():
        before, _, after = line.partition(" - ")
        if after:
            mounts.append((_unescape(before.split(" ")[4]), after.split(" ")[0]))
    return mounts


def read_mount_listing(text: str) -> list[tuple[str, str]]:
    """macOS: lines of mount(8), `device on /point (type, options)` -> (mount point, type)."""
    mounts = []
    for line in text.splitlines():
        before, _, options = line.rpartition(" (")
        _, found, point = before.partition(" on ")
        if found:
            mounts.append((point, options.split(",")[0].rstrip(")")))
    return mounts


def kind_in(mounts: list[tuple[str, str]], path: Path) -> str | None:
    """The network type of the mount that holds `path`, or None."""
    holding = [mount for mount in mounts if _holds(Path(mount[0]), path)]
    if not holding:
        return None
    # The last of equal ones was mounted over the others.
    kind = max(enumerate(holding), key=lambda item: (len(Path(item[1][0]).parts), item[0]))[1][1]
    return kind if kind.removeprefix("fuse.") in _NETWORK else None


def _holds(point: Path, path: Path) -> bool:
    return path == point or point in path.parents


def _unescape(field: str) -> str:
    # proc(5): space, tab, newline and backslash are written in octal.
    for code in ("040", "011", "012", "134"):
        field = field.replace("\\" + code, chr(int(code, 8)))
    return field


def _on_windows(path: Path) -> str | None:
    if path.drive.startswith("\\\\"):
        return "network share"
    import ctypes

    remote = ctypes.windll.kernel32.GetDriveTypeW(path.drive + "\\") == _DRIVE_REMOTE  # type: ignore[attr-defined]
    return "network drive" if remote else None
