"""What the app does once, when it starts: what was cut off is found, told and shown."""

from controller import guard as guards
from controller import journal as journals
from controller import store as stores
from footlight_core import states as st
from footlight_core.duty import Past
from footlight_core.errors import StorageError
from footlight_core.recovery import Recovery
from footlight_core.session import BUILD

# A lamp whose processor hangs burns until its time is over, or until the watchdog bites.
_HANG_MS = guards.TIMEOUT_MS + 500


def begin(seq, store, journal, guard, now_ms, ms_noted):
    """Read ledger and journal; record the start; go to BROKEN if a run was cut off.

    `ms_noted`: how long one count of the guard's note of a light is. What the flash refuses stays in the
    journal's memory and is a fault, but the run that was cut off is shown all the same.
    """
    recovery, dead_ms = _read(journal, Past(seq.duty, bool(store.sensor.fitted)))
    ledger = store.ledger()
    # The ledger is written before the first record of a run; the journal knows more only if it was lost.
    ledger.next_run = max(ledger.next_run, recovery.last_run + 1)
    ledger.next_sheet = max(ledger.next_sheet, recovery.last_sheet + 1)
    if store.ledger_found == stores.LOST:
        _raise(ledger, journal)
    seq.ledger = ledger
    reason, value = guard.last_reason()
    boot = {"k": "boot", "reason": reason, "value": value, "build": BUILD, "fresh": journal.found}
    is_kept = _kept(journal, boot, now_ms)
    if recovery.open_ms and reason == guards.HANG:
        _tighten(recovery, value, ms_noted, dead_ms)
    seq.effects.clear()  # of a start that an error broke off
    if recovery.run:
        program = store.load(recovery.slot, _whole_sha(store, recovery))
        seq.resume_broken(program, recovery, now_ms)
    if seq.state == st.BROKEN or recovery.focus_open:
        is_kept = _kept(journal, _cut(seq.run), now_ms) and is_kept
    is_kept = _ledger_kept(store, ledger) and is_kept
    _say_found(seq, journal, store, now_ms)
    if not is_kept:
        seq.handle(st.TROUBLE, st.NO_RECORD, now_ms)


def _read(journal, past):
    recovery = Recovery()
    dead_ms = 0
    number = 0
    for record in journal.recent():
        if number and record["n"] > number + 1:
            recovery.miss()
        number = record["n"]
        recovery.feed(record)
        past.feed(record)
        if record["k"] == "intent":
            dead_ms = record["gate_ms"] - record["light_ms"]
    if number + 1 < journal.next_number():
        recovery.miss()
    past.end()
    return recovery, dead_ms


def _raise(ledger, journal):
    # All that is still in the flash is read, which may take a minute: numbers must never go back.
    for record in journal.everything():
        ledger.next_run = max(ledger.next_run, record.get("run", 0) + 1)
        ledger.next_sheet = max(ledger.next_sheet, record.get("sheet", 0) + 1)


def _ledger_kept(store, ledger):
    if store.ledger_found == stores.WHOLE:
        return True
    try:
        store.keep(ledger)
    except StorageError:
        return False
    return True


def _tighten(recovery, value, ms_noted, dead_ms):
    # A note of 0: no light was under way when the watchdog bit.
    if value == 0:
        recovery.tighten(0, 0)
        return
    least_ms = min(recovery.open_ms, max(0, (value - 1) * ms_noted - dead_ms))
    recovery.tighten(least_ms, min(recovery.open_ms, least_ms + _HANG_MS))


def _cut(run):
    # Run 0 is the set-up light, which has no step and no sheet.
    step = run.index + 1 if run.number else 0
    cut = {"k": "cut", "run": run.number, "step": step, "sheet": run.sheet}
    cut["least_ms"], cut["most_ms"] = run.tally.least_ms(step), run.tally.most_ms(step)
    return cut


def _kept(journal, record, now_ms):
    try:
        journal.append(record, now_ms)
    except StorageError:
        return False
    return True


def _whole_sha(store, recovery):
    # A record holds the first characters of a program's hash, the shelf the whole of it.
    for slot, sha, _ in store.entries():
        if slot == recovery.slot and sha.startswith(recovery.sha):
            recovery.sha = sha
    return recovery.sha


def _say_found(seq, journal, store, now_ms):
    # A new or damaged file system is never passed off as an empty journal.
    if journal.found == journals.FRESH:
        seq.say("FRESH")
    elif journal.found == journals.DAMAGED or (store.ledger_found == stores.LOST and seq.ledger.next_run > 1):
        seq.handle(st.TROUBLE, st.LOST_NOTES, now_ms)
    elif store.ledger_found == stores.MENDED:
        seq.handle(st.TROUBLE, st.MENDED_NOTES, now_ms)
    elif store.sensor_found == stores.LOST:
        seq.handle(st.TROUBLE, st.LOST_SENSOR, now_ms)
