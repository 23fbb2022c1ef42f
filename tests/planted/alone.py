"""Parts of the firmware alone, on CPython, in a folder of their own: what no scene can bring about.

Run as a script with the firmware to judge on the path; prints what is wrong and leaves with 1.
"""

# pyright: reportAttributeAccessIssue=false

import gc
import os
import sys
import tempfile
import types

os.chdir(tempfile.mkdtemp())
machine = types.ModuleType("machine")
machine.WDT_RESET = 3
machine.reset_cause = lambda: 1
fed = []
machine.WDT = lambda timeout: types.SimpleNamespace(feed=lambda: fed.append(timeout))
sys.modules["machine"] = machine
gc.mem_free = lambda: 0

from controller import chip, files  # noqa: E402
from controller.guard import TASKS, Guard  # noqa: E402
from controller.journal import Journal  # noqa: E402
from footlight_core.errors import StorageError  # noqa: E402

machine.mem32 = {chip.SCRATCH0: 0, chip.SCRATCH1: 0}


def check(name, good):
    """Say what is wrong."""
    if not good:
        print("NOT", name)
        sys.exit(1)


def a_silent_task():
    guard = Guard()
    guard.start()
    for task in range(TASKS - 1):
        guard.report(task)
    check("no feed while a task is silent", not guard.feed_if_all_reported() and not fed)
    guard.report(TASKS - 1)
    check("a feed once all have reported", guard.feed_if_all_reported() and len(fed) == 1)


def many(journal, count):
    for _ in range(count):
        journal.append({"k": "end", "run": 1, "sheet": 1, "how": "whole"}, 1)


def acknowledged():
    journal = Journal(lambda: 1)
    many(journal, 300)
    first = journal.state()["first"]
    journal.keep_up_to(5)
    check("nothing goes that was not acknowledged", journal.state()["first"] == first)
    check("its text is there", '"n":6' in journal.line(6).replace(" ", ""))
    journal.keep_up_to(300)
    check("acknowledged files go", journal.state()["first"] > first and journal.line(300))


def a_torn_tail():
    folder = "data/journal"
    newest = sorted(os.listdir(folder))[-1]
    with open(folder + "/" + newest, "ab") as file:
        file.write(b'{"k":"end","n":301,"ru')
    journal = Journal(lambda: 1)
    many(journal, 1)
    check("a torn line is cut off", '"n":301' in journal.line(301).replace(" ", ""))
    check("and nothing is damaged", Journal(lambda: 1).found == 0)


def a_worn_flash():
    class Worn:
        def __init__(self, file):
            self._file = file

        def __enter__(self):
            return self

        def __exit__(self, *exc):
            self._file.close()

        def __getattr__(self, name):
            return getattr(self._file, name)

        def write(self, data):
            return self._file.write(data[:-1] + b"?")

    def opened(path, mode):
        file = open(path, mode)  # noqa: SIM115 - closed by who asked
        return Worn(file) if "a" in mode else file

    files.open = opened
    try:
        files.append("data/x", b"abc")
    except StorageError:
        return
    check("what is not there as written is an error", False)


def a_flash_that_comes_back():
    append, journal = files.append, Journal(lambda: 1)
    first = journal.next_number()

    def refuse(path, data):
        raise StorageError("worn")

    files.append = refuse
    for _ in range(40):
        try:
            many(journal, 1)
        except StorageError:
            continue
    files.append = append
    check("so many wait, and no number is given for more", journal.next_number() == first + 32)
    try:
        many(journal, 1)
    except StorageError:
        check("a flash that has come back is noticed", False)
    check("what waited is there", journal.state()["last"] == first + 32 and journal.line(first))


a_silent_task()
acknowledged()
a_torn_tail()
a_flash_that_comes_back()
a_worn_flash()
print("ok")
