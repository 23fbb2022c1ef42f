"""Files of the controller: every write is read back, and a file is replaced whole or not at all.

Paths are relative to the present folder, so that the bench can put a file system of its own there.
"""

import binascii
import hashlib
import os

from footlight_core import const
from footlight_core.errors import StorageError

_COPY = const("2")


def make(folder):
    """Make a folder unless it is there."""
    if not exists(folder):
        os.mkdir(folder)


def exists(path):
    """Is there such a file or folder?"""
    try:
        os.stat(path)
    except OSError:
        return False
    return True


def size(path):
    """Length of a file [bytes]; 0 when there is none."""
    return os.stat(path)[6] if exists(path) else 0


def names(folder):
    """Names in a folder, in order."""
    return sorted(os.listdir(folder))


def read(path):
    """All bytes of a file, or None when there is none or it cannot be read."""
    try:
        with open(path, "rb") as file:
            return file.read()
    except OSError:
        return None


def lines(path, offset=0):
    """Lines of a file from an offset on, each as bytes with its newline if it has one."""
    with open(path, "rb") as file:
        file.seek(offset)
        line = file.readline()
        while line:
            yield line
            line = file.readline()


def append(path, data):
    """Put bytes at the end of a file, and look whether they are there. Raises StorageError."""
    try:
        offset = size(path)
        with open(path, "ab") as file:
            file.write(data)
        with open(path, "rb") as file:
            file.seek(offset)
            found = file.read(len(data))
    except OSError as error:
        raise _refused("write", path, error)
    if found != data:
        raise StorageError("%s does not hold what was written: the flash is worn" % path)


def ends_with(path, data):
    """Are these the last bytes of a file? False also when it cannot be read."""
    if size(path) < len(data):
        return False
    try:
        with open(path, "rb") as file:
            file.seek(size(path) - len(data))
            return file.read() == data
    except OSError:
        return False


def extend(path, data):
    """Put bytes at the end of a file whose whole is verified later, so not now. Raises StorageError."""
    try:
        with open(path, "ab") as file:
            file.write(data)
    except OSError as error:
        raise _refused("write", path, error)


def replace(path, data):
    """Make `data` the whole of a file: the old or the new after a power cut, never a mix."""
    new = path + ".new"
    remove(new)
    append(new, data)
    try:
        os.rename(new, path)
    except OSError as error:
        raise _refused("rename", new, error)


def cut(path, size_bytes):
    """Leave only the first bytes of a file. Raises StorageError, also when it cannot be read."""
    data = read(path)
    if data is None:
        raise StorageError("cannot read %s" % path)
    replace(path, data[:size_bytes])


def replace_twice(path, data):
    """The same, with a copy beside it: of what must outlive a bit that falls over in the flash."""
    replace(path, data)
    replace(path + _COPY, data)


def copies(path):
    """The bytes of a file that was replaced twice, and of its copy; None where there is none."""
    return read(path), read(path + _COPY)


def remove(path):
    """Remove a file if it is there. Raises StorageError."""
    if not exists(path):
        return
    try:
        os.remove(path)
    except OSError as error:
        raise _refused("remove", path, error)


def free_bytes():
    """Room left [bytes]."""
    status = os.statvfs(".")
    return status[0] * status[3]


def sha256_hex(data):
    """SHA-256 of bytes, in hex."""
    return binascii.hexlify(hashlib.sha256(data).digest()).decode()


def _refused(what, path, error):
    return StorageError("cannot %s %s: error %s" % (what, path, error.args[0]))
