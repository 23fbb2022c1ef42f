"""The journal: numbered, sealed records in files of some kilobytes, each named by its first number.

A record is written and read back before anything that depends on it may happen. Only whole files of
records that the computer has acknowledged are deleted, and never the newest two: numbers go on for ever,
and the lamp's last ten minutes are known after a power cut. A file system that was formatted gets a new
epoch, so that an empty journal is never taken for the old one.

A line that a power cut tore has no newline and is nobody's: it is cut off. A line with its newline that is
not whole any more is damage: it stays where it is, counts as a number that was used, and begins a new epoch.
Records go on in a new file. The epoch remembers up to which number damage has been told.
"""

import binascii
import json
import os

from controller import files
from controller.store import FOLDER
from footlight_core import const, records, wire
from footlight_core.duty import WINDOW_MS
from footlight_core.errors import Refusal, StorageError

_SEGMENTS = FOLDER + "/journal"
_EPOCH = FOLDER + "/epoch"
_SEGMENT_BYTES = const(8192)
_MOST_UNWRITTEN = const(32)
_SEAL_BYTES = const(9)  # the brace that ends a record, and its check sum
# A record of a run is shorter than this; the longest is counted, not the mean.
_RECORD_BYTES = const(160)

# Kept free beside what a run may write: stops, faults, starts.
SPARE_RECORDS = 64

# How the journal was found at boot.
WHOLE = const(0)
FRESH = const(1)
DAMAGED = const(2)


class Journal:
    """`now_ms`: a callable that gives the time since boot."""

    def __init__(self, now_ms):
        self._now_ms = now_ms
        files.make(FOLDER)
        files.make(_SEGMENTS)
        self.found = WHOLE
        self.worn = False
        self._unwritten = []  # sealed lines that the flash refused
        self._in_doubt = False  # the first of them may stand in the file all the same
        self._firsts = [int(name) for name in files.names(_SEGMENTS) if not name.endswith(".new")]
        self._last = 0
        self._new_segment = not self._firsts
        self._cursor = (0, 0, 0)  # segment, number of a record, where it stands in the file
        self._damaged = 0  # number of the newest damaged record that was met
        self._told_to = 0  # damage up to this number has been told
        self._epoch = ""
        self._read_epoch()
        if self._firsts:
            self._read_tail()
        if not self._epoch or self._damaged > self._told_to:
            self._begin_epoch()

    def state(self):
        """Epoch, and the numbers of the oldest and the newest record."""
        first = self._firsts[0] if self._firsts else 1
        return {"epoch": self._epoch, "first": first, "last": self._last}

    def line(self, number):
        """The sealed record with that number, as text; "" when it is damaged."""
        if number > self._last:
            raise Refusal("past_end", "the last record is %d" % self._last)
        segment = self._segment_of(number)
        if segment == 0:
            return ""
        return self._find(segment, number)

    def append(self, record, t_ms):
        """Number, seal and write a record (dict of its kind and fields). Raises StorageError.

        What the flash refused is kept in memory, and written before anything newer. Where no more can be
        kept, a record is taken only once the flash has taken the oldest.
        """
        if len(self._unwritten) == _MOST_UNWRITTEN:
            self._write_oldest()
        record["n"] = self.next_number()
        record["t"] = t_ms
        self._unwritten.append(records.seal(record) + b"\n")
        while self._unwritten:
            self._write_oldest()
        self.worn = False

    def next_number(self):
        """The number that the next record will have; it changes as soon as a record was taken."""
        return self._last + 1 + len(self._unwritten)

    def keep_up_to(self, number):
        """The computer holds everything up to `number`: whole files of that may go."""
        if number > self._last:
            raise Refusal("past_end", "the last record is %d" % self._last)
        while len(self._firsts) > 2 and self._firsts[1] <= number + 1:
            files.remove(_path(self._firsts[0]))
            self._firsts.pop(0)

    def note_date(self, unix_s):
        """Anchor the time since boot in the computer's time, where there is room for it."""
        if self.room() < SPARE_RECORDS:
            return
        try:
            self.append({"k": "date", "unix_s": unix_s}, self._now_ms())
        except StorageError:
            # `worn` forbids the next run and says why; a greeting must not fail on it, for a journal on a
            # flash that fails is the one that must be brought home.
            return

    def room(self):
        """How many records of a run surely fit."""
        return max(0, files.free_bytes() - 4 * _SEGMENT_BYTES) // _RECORD_BYTES

    def recent(self):
        """Records from before the beginning of the last run on, and of the lamp's last ten minutes at least,
        oldest first."""
        index = max(0, len(self._firsts) - 1)
        tells_run, span_ms = False, 0
        while index > 0:
            begins, passed_ms = _survey(self._firsts[index])
            tells_run = tells_run or begins
            span_ms += passed_ms
            if tells_run and span_ms >= WINDOW_MS:
                break
            index -= 1
        while index < len(self._firsts):
            # What was written in doubt at the end of a file was written again at the head of the next.
            following = self._firsts[index + 1] if index + 1 < len(self._firsts) else self._last + 1
            for number, record in _numbered(self._firsts[index]):
                if not record:
                    self._damaged = max(self._damaged, number)
                elif record["n"] < following:
                    yield record
            index += 1
        if self._damaged > self._told_to:
            self._begin_epoch()

    def everything(self):
        """Every whole record that is still here, oldest first; some may come twice."""
        for first in self._firsts:
            for _, record in _numbered(first):
                if record:
                    yield record

    # ----------------------------------------------------------------------------------------------

    def _write_oldest(self):
        self._write(self._unwritten[0])
        # In one step, so that no error can come between: a number is never given twice.
        self._last, self._unwritten, self._in_doubt = self._last + 1, self._unwritten[1:], False

    def _write(self, line):
        # An error may have come once the line was whole in the file: it is not told twice.
        if self._in_doubt and self._firsts and files.ends_with(_path(self._firsts[-1]), line):
            return
        self._in_doubt = True
        try:
            if self._new_segment or files.size(_path(self._firsts[-1])) + len(line) > _SEGMENT_BYTES:
                self._begin_segment()
            files.append(_path(self._firsts[-1]), line)
        except Exception as error:
            # Whatever stands there now, the next attempt goes elsewhere.
            self._new_segment = True
            self.worn = isinstance(error, StorageError)
            raise

    def _begin_segment(self):
        first = self._last + 1
        files.remove(_path(first))
        if not self._firsts or self._firsts[-1] != first:
            self._firsts.append(first)
        self._new_segment = False

    def _read_epoch(self):
        text = wire.unseal(files.read(_EPOCH) or b"")
        if text and self._firsts:
            epoch = json.loads(text)
            self._epoch, self._told_to = epoch["epoch"], epoch.get("told_to", 0)

    def _begin_epoch(self):
        # Records without their epoch are kept and read, but under a new one: it is damage, and is said.
        self.found = DAMAGED if self._firsts else FRESH
        self._epoch = binascii.hexlify(os.urandom(4)).decode()
        self._told_to = max(self._damaged, self._told_to)
        sealed = wire.seal(wire.dumps({"epoch": self._epoch, "told_to": self._told_to}))
        try:
            files.replace(_EPOCH, sealed)
        except StorageError:
            # A run that was cut off must be shown all the same.
            self.worn = True

    def _read_tail(self):
        """Numbers go on after the last one that was used; a line that a power cut tore is cut off."""
        first = self._firsts[-1]
        self._last = first - 1
        whole_bytes = 0
        is_damaged = False
        for line in files.lines(_path(first)):
            number, record = _number(line, self._last)
            if record or not _is_torn(line):
                self._last, whole_bytes = number, whole_bytes + len(line)
            if not record and not _is_torn(line):
                is_damaged, self._damaged = True, number
        # Evidence is not touched: what follows goes elsewhere.
        self._new_segment = is_damaged
        if not is_damaged and files.size(_path(first)) > whole_bytes:
            files.cut(_path(first), whole_bytes)

    def _segment_of(self, number):
        found = 0
        for first in self._firsts:
            if first <= number:
                found = first
        return found

    def _find(self, segment, number):
        # Records are read in order, so the place after the last one found is nearly always right.
        offset = self._cursor[2] if self._cursor[0] == segment and self._cursor[1] == number else 0
        for line in files.lines(_path(segment), offset):
            offset += len(line)
            record = _unseal(line)
            if record and record["n"] == number:
                self._cursor = (segment, number + 1, offset)
                return line.decode().strip()
        return ""


def _path(first):
    return _SEGMENTS + "/%08d" % first


def _unseal(line):
    return records.unseal(line[:-1]) if line.endswith(b"\n") else None


def _is_torn(line):
    """Has a power cut left only the beginning of a line? One whose newline has rotted is longer than that."""
    if line.endswith(b"\n"):
        return False
    for byte in line:
        if not 0x20 <= byte < 0x7F:
            return False
    end = line.find(b"}")
    return end < 0 or len(line) - end <= _SEAL_BYTES


def _number(line, last):
    """A line -> the number up to which records were used, and the record, or None when it is damaged."""
    record = _unseal(line)
    # Where a newline has rotted, two records look like one line.
    return (record["n"] if record else last + max(1, line.count(b"}"))), record


def _numbered(first):
    """(number, record) of every line of a file; None for a damaged one."""
    number = first - 1
    for line in files.lines(_path(first)):
        if not _is_torn(line):
            number, record = _number(line, number)
            yield number, record


def _survey(first):
    """Does a file of records tell of the beginning of a run, and how much time passes in it at least [ms]?"""
    tells_run, span_ms, t_ms = False, 0, 1 << 30
    for _, record in _numbered(first):
        if record:
            tells_run = tells_run or record["k"] in ("arm", "end")
            span_ms += max(0, record["t"] - t_ms)
            t_ms = record["t"]
    return tells_run, span_ms
