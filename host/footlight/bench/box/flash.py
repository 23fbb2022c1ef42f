"""The file system of the controller: littlefs on a file that outlives the process, with faults on wish.

The block size, the number of blocks and the program size are those of MicroPython's own file system on the
board. Each erase and each program is an event, and the driver can have one torn: half of it happens, and
the power goes. On CPython, which has no littlefs, the data lie in a plain folder.
"""

import os

import world as _worlds

BLOCK_BYTES = 4096
BLOCKS = 352
PROGRAM_BYTES = 256

_INIT = 1
_COUNT = 4
_SIZE = 5
_ERASE = 6
_FILLER = "/flash/filler"


class _Faults:
    """What the driver has asked for."""

    def __init__(self):
        self.bad = ()
        self.is_quiet = False
        self.torn = 0  # how much of the last operation happens [per cent]
        self._until_cut = -1

    def cuts(self):
        """Is this operation the one at which the power goes?"""
        self._until_cut -= 1
        return self._until_cut == 0

    def command(self, words):
        # flash cut <how many operations from now> <per cent of it that happens> | flash bad <block>...
        # | flash fill <blocks to leave free, -1 = as before>
        if words[0] == "cut":
            self._until_cut, self.torn = int(words[1]), int(words[2])
        elif words[0] == "bad":
            self.bad = tuple([int(word) for word in words[1:]])
        elif words[0] == "fill":
            self.fill(int(words[1]))

    def fill(self, blocks_left):
        """Somebody else's file; its writing is nothing that the firmware did, and is not told as such."""
        self.is_quiet = True
        try:
            _fill(blocks_left)
        except OSError as error:
            # Full or worn before it was as full as wished.
            _worlds.world.emit("filler", "ended by %d" % error.args[0])
        self.is_quiet = False


def _fill(blocks_left):
    if "filler" in os.listdir("/flash"):
        os.remove(_FILLER)
    if blocks_left < 0:
        return
    with open(_FILLER, "wb") as file:
        while os.statvfs("/flash")[3] > blocks_left:
            file.write(b"\x00" * BLOCK_BYTES)
            file.flush()


_faults = _Faults()


def begin(bad):
    """Put the command of this module in force. `bad`: blocks that keep nothing any more."""
    _worlds.world.commands["flash"] = _faults.command
    _faults.bad = tuple(bad)


class Flash:
    """A block device in a file."""

    def __init__(self, path):
        self._file = open(path, "r+b")
        self._erased = b"\xff" * 256

    def readblocks(self, block, buffer, offset=0):
        """Read."""
        self._file.seek(block * BLOCK_BYTES + offset)
        self._file.readinto(buffer)

    def writeblocks(self, block, buffer, offset=0):
        """Program bits: erased ones become what they are told."""
        if not _faults.is_quiet:
            _worlds.world.emit("program", "%d %d %d" % (block, offset, len(buffer)))
        data = bytes(buffer)
        if block in _faults.bad:
            data = b"\x00" * len(data)
        if _faults.cuts():
            self._put(block, offset, data[: len(data) * _faults.torn // 100])
            self._lose_power()
        self._put(block, offset, data)

    def ioctl(self, operation, argument):
        """Number and size of blocks; erase."""
        if operation == _COUNT:
            return BLOCKS
        if operation == _SIZE:
            return BLOCK_BYTES
        if operation == _ERASE:
            self._erase(argument)
        return 0

    def _erase(self, block):
        if not _faults.is_quiet:
            _worlds.world.emit("erase", str(block))
        cut = _faults.cuts()
        bytes_to_go = BLOCK_BYTES * _faults.torn // 100 if cut else BLOCK_BYTES
        for offset in range(0, bytes_to_go, len(self._erased)):
            self._put(block, offset, self._erased)
        if cut:
            self._lose_power()

    def _put(self, block, offset, data):
        self._file.seek(block * BLOCK_BYTES + offset)
        self._file.write(data)

    def _lose_power(self):
        _worlds.world.die("power", "0")


def mount(path):
    """Make the flash the present folder. A flash that was never used is formatted, as the board does."""
    import vfs

    fresh = False
    try:
        os.stat(path)
    except OSError:
        fresh = True
        with open(path, "wb") as file:
            for _ in range(BLOCKS):
                file.write(b"\xff" * BLOCK_BYTES)
    device = Flash(path)
    if not fresh:
        try:
            vfs.mount(_files_on(device), "/flash")
        except OSError:
            fresh = True
    if fresh:
        _worlds.world.emit("format")
        vfs.VfsLfs2.mkfs(device, progsize=PROGRAM_BYTES)
        vfs.mount(_files_on(device), "/flash")
    os.chdir("/flash")


def _files_on(device):
    import vfs

    # Without times of change: they would come from the computer's clock, and no run could be repeated.
    return vfs.VfsLfs2(device, progsize=PROGRAM_BYTES, mtime=False)


def enter(path):
    """The plain folder, on an interpreter without littlefs."""
    try:
        os.mkdir(path)
    except OSError as error:
        if error.args[0] != 17:
            raise
    os.chdir(path)
