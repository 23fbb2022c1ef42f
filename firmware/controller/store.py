"""Eight slots for programs, the ledger of numbers that outlive a run, and what the light sensor has learnt.

A slot is one file: the program, a newline, and a sealed line with its SHA-256 and title. It is replaced
by renaming, after the whole program has arrived, its length and hash were found right and the program
itself was accepted. An upload lives in a file whose name says for which slot, hash and length it is, so
that it can be gone on with after any interruption.
"""

import json

from controller import files
from footlight_core import const, wire
from footlight_core import program as programs
from footlight_core.errors import ProgramError, Refusal, StorageError
from footlight_core.run import Ledger
from footlight_core.sensor import LEARNT, Sensor

FOLDER = "data"
_LEDGER = FOLDER + "/ledger"
_SENSOR = FOLDER + "/sensor"
# Room that a new program must leave for the journal and for littlefs itself.
_SPARE_BYTES = const(32_768)


# How ledger and sensor were found at boot.
WHOLE = const(0)
MENDED = const(1)  # from its copy
LOST = const(2)  # or never kept


class Store:
    """The session's store and the sequencer's shelf in one."""

    def __init__(self):
        files.make(FOLDER)
        self._arriving = None  # (slot, name, length, bytes there) of the upload that was put to last
        self.ledger_found = WHOLE
        self.sensor = Sensor()
        self.sensor_found = self._read_sensor()
        self._heads = {}  # slot -> (sha, title); a title of "" means that what it holds is damaged
        for slot in range(1, wire.MAX_SLOTS + 1):
            self._look_at(slot)

    # -- for the session ---------------------------------------------------------------------------

    def slots(self):
        """The slots in use: [number, title, first characters of the SHA-256]."""
        return [[slot, self._heads[slot][1], self._heads[slot][0][:16]] for slot in sorted(self._heads)]

    def begin(self, slot, sha256, length):
        """Begin an upload, or go on with one -> offset of the first byte that is missing."""
        self._arriving = None
        if self._holds(slot, sha256):
            return length
        wanted = "up%d-%s-%d" % (slot, sha256, length)
        for name in self._uploads(slot):
            if name != wanted:
                files.remove(_path(name))
        if not files.exists(_path(wanted)):
            if files.free_bytes() < 2 * length + _SPARE_BYTES:
                raise StorageError("no room for %d bytes: bring the journal home" % length)
            files.append(_path(wanted), b"")
        return files.size(_path(wanted))

    def put(self, slot, offset, data):
        """Some bytes of an upload; those already there are passed over -> first byte that is missing."""
        name, length, there = self._arrival(slot)
        if offset > there or offset + len(data) > length:
            raise Refusal("bad_offset", "%d of %d bytes have arrived" % (there, length))
        new = data[there - offset :]
        self._arriving = None  # if the flash refuses, what is there is looked at again
        if new:
            files.extend(_path(name), new)
        self._arriving = (slot, name, length, there + len(new))
        return there + len(new)

    def commit(self, slot, sha256):
        """The upload is whole: it becomes what the slot holds -> its title."""
        self._arriving = None
        if not self._holds(slot, sha256):
            name, announced, length = self._upload(slot)
            data = files.read(_path(name)) or b""
            if announced != sha256 or len(data) != length:
                raise Refusal("bad_offset", "%d of %d bytes have arrived" % (len(data), length))
            self._fill(slot, name, data, sha256)
        return self._heads[slot][1]

    def clear(self, slot):
        """Empty a slot."""
        if slot not in self._heads:
            raise Refusal("no_slot")
        files.remove(_slot_path(slot))
        self._look_at(slot)

    def fit(self, fitted):
        """A sensor is fitted, or none is."""
        self.sensor.fitted = fitted
        self._keep_sensor()

    def learn(self, params):
        """What was learnt of a lamp; a level of 0 forgets it."""
        learnt = [params[rule[0]] for rule in LEARNT]
        if learnt[0] and learnt[0] <= 2 * learnt[1]:
            raise Refusal("bad_params", "level: more than twice the dark reading")
        if not self.sensor.learn(params["lamp"], learnt):
            raise Refusal("bad_params", "lamp: forget another one first")
        self._keep_sensor()

    def known(self):
        """What the sensor is known for: fitted, and each lamp with what was learnt of it."""
        lamps = self.sensor.lamps
        return {"fitted": self.sensor.fitted, "lamps": [[name] + lamps[name] for name in sorted(lamps)]}

    # -- for the sequencer -------------------------------------------------------------------------

    def entries(self):
        """What idle offers: (slot, sha, title). A damaged slot is shown as such, and cannot be opened."""
        heads = self._heads
        return tuple([(slot, heads[slot][0], heads[slot][1] or "?%d" % slot) for slot in sorted(heads)])

    def load(self, slot, sha):
        """The checked program of a slot, its hash verified once more; None if it is not what it was."""
        data, found, _ = _read_slot(slot)
        if data is None or found != sha:
            self._look_at(slot)
            return None
        try:
            return programs.parse(data)
        except ProgramError:
            return None

    def ledger(self):
        """The ledger as it was last kept, from its copy where it has rotted; a new one if both have."""
        first, second = [wire.unseal(data or b"") for data in files.copies(_LEDGER)]
        # An older firmware kept no copy.
        is_whole = first and (second or not files.exists(_LEDGER + "2"))
        self.ledger_found = WHOLE if is_whole else MENDED if first or second else LOST
        text = first or second
        kept = json.loads(text) if text else {}
        ledger = Ledger()
        for key in ledger.__dict__:
            setattr(ledger, key, kept.get(key, getattr(ledger, key)))
        return ledger

    def keep(self, ledger):
        """Keep the ledger. Raises StorageError."""
        files.replace_twice(_LEDGER, wire.seal(wire.dumps(ledger.__dict__)))

    # ----------------------------------------------------------------------------------------------

    def _read_sensor(self):
        copies = files.copies(_SENSOR)
        texts = [wire.unseal(data or b"") for data in copies]
        text = texts[0] or texts[1]
        if not text:
            # Nothing was ever kept, or all of it has rotted.
            return WHOLE if copies[0] is None and copies[1] is None else LOST
        kept = json.loads(text)
        self.sensor.take(kept["fitted"], kept["lamps"])
        return WHOLE if texts[0] and texts[1] else MENDED

    def _keep_sensor(self):
        kept = {"fitted": self.sensor.fitted, "lamps": self.sensor.lamps}
        files.replace_twice(_SENSOR, wire.seal(wire.dumps(kept)))
        self.sensor_found = WHOLE

    def _look_at(self, slot):
        self._heads.pop(slot, None)
        if files.exists(_slot_path(slot)):
            _, sha, title = _read_slot(slot)
            self._heads[slot] = (sha, title)

    def _holds(self, slot, sha256):
        return self._heads.get(slot, ("", ""))[0] == sha256

    def _uploads(self, slot):
        return [name for name in files.names(FOLDER) if name.startswith("up%d-" % slot)]

    def _upload(self, slot):
        for name in self._uploads(slot):
            _, sha, length = name.split("-")
            return name, sha, int(length)
        raise Refusal("no_upload")

    def _arrival(self, slot):
        # Folder and file are looked at once an upload and not once a put.
        if self._arriving and self._arriving[0] == slot:
            return self._arriving[1:]
        name, _, length = self._upload(slot)
        return name, length, files.size(_path(name))

    def _fill(self, slot, name, data, sha256):
        if files.sha256_hex(data) != sha256:
            files.remove(_path(name))
            raise Refusal("bad_hash")
        title = programs.parse(data)["title"]
        seal = wire.seal(wire.dumps({"sha": sha256, "title": title}))
        files.replace(_slot_path(slot), data + b"\n" + seal)
        files.remove(_path(name))
        self._look_at(slot)


def _path(name):
    return FOLDER + "/" + name


def _slot_path(slot):
    return FOLDER + "/slot%d" % slot


def _read_slot(slot):
    """What a slot holds -> (program bytes, SHA-256, title); (None, "", "") when it is damaged."""
    whole = files.read(_slot_path(slot)) or b""
    end = whole.rfind(b"\n{")
    text = wire.unseal(whole[end + 1 :]) if end > 0 else None
    if text is None:
        return None, "", ""
    seal = json.loads(text)
    data = whole[:end]
    if files.sha256_hex(data) != seal["sha"]:
        return None, "", ""
    return data, seal["sha"], seal["title"]
