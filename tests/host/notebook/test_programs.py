"""What is kept of a sequence when it is sent: its file, and the light setups that its times came from."""

import sqlite3
from dataclasses import replace

from tests.host.notebook.journals import PRINT_PROGRAM, SHA

from footlight import examples, sequence
from footlight.actions import send_sequence
from footlight.notebook.journal import programs

NOW = 1_772_388_000


def kept(book: sqlite3.Connection) -> sqlite3.Row:
    (row,) = book.execute("SELECT * FROM programs").fetchall()
    return row


def test_a_sent_sequence_has_its_files():
    compiled = sequence.compile(sequence.load(examples.path("reversal-print")))
    sent = send_sequence.as_kept(compiled)
    assert sent.source == examples.text("reversal-print.toml")
    assert sent.setups == examples.text(examples.SETUPS)


def test_without_a_light_there_are_no_setups(tmp_path):
    path = tmp_path / "wash.toml"
    path.write_text('title = "WASH"\nname = "wash"\n[[step]]\nkind = "pause"\nname = "wash"\n')
    assert send_sequence.as_kept(sequence.compile(sequence.load(path))).setups == ""


def test_setups_that_an_earlier_version_did_not_keep_are_kept_now(book: sqlite3.Connection):
    early = programs.Sequence(SHA, "PENCIL", "reversal print", PRINT_PROGRAM, "# then\n", "8 s")
    programs.store(book, early, NOW)
    programs.store(book, replace(early, source="# now\n", setups="[lamp.a]\n"), NOW + 60)
    assert (kept(book)["source"], kept(book)["setups"]) == ("# now\n", "[lamp.a]\n")
    programs.store(book, replace(early, source="# later\n", setups="[lamp.b]\n"), NOW + 90)
    assert (kept(book)["source"], kept(book)["setups"]) == ("# now\n", "[lamp.a]\n")
    assert kept(book)["stored_unix_s"] == NOW
