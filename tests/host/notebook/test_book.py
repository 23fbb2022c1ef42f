"""Opening: every version from the first on, and one clear line for each file that is not a good notebook."""

import sqlite3
from pathlib import Path

import pytest
from tests.host.notebook.journals import EVENING

from footlight.notebook import book as book_module
from footlight.notebook import migrate, mounts, place
from footlight.notebook.book import notebook
from footlight.notebook.errors import NotebookError


def test_a_new_notebook_is_of_the_newest_version_and_safe(path: Path):
    with notebook(path, writing=True) as book:
        assert migrate.version_of(book) == migrate.newest()
        assert book.execute("PRAGMA foreign_keys").fetchone()[0] == 1
        assert book.execute("PRAGMA synchronous").fetchone()[0] == 2
        assert book.execute("PRAGMA journal_mode").fetchone()[0] == "delete"
        assert book.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
        with pytest.raises(sqlite3.IntegrityError):
            book.execute("INSERT INTO journal VALUES (99, 1, '', 1, 1, NULL, 0)")


def test_versions_are_numbered_without_gaps():
    assert [version for version, _ in migrate.all_steps()] == list(range(1, migrate.newest() + 1))


def at_version(path: Path, version: int) -> None:
    connection = sqlite3.connect(path, isolation_level=None)
    migrate.migrate(connection, version)
    connection.execute("INSERT INTO controllers (id, first_met_unix_s) VALUES ('box-1', ?)", (EVENING,))
    connection.close()


@pytest.mark.parametrize("version", range(1, migrate.newest() + 1))
def test_every_version_is_brought_up_to_the_newest(path: Path, version: int):
    at_version(path, version)
    with notebook(path, writing=False) as book:
        assert migrate.version_of(book) == migrate.newest()
        assert book.execute("SELECT id FROM controllers").fetchone()[0] == "box-1"
        migrated = sorted(row[0] or "" for row in book.execute("SELECT sql FROM sqlite_master"))
    with notebook(path.with_name("new.sqlite"), writing=True) as book:
        assert sorted(row[0] or "" for row in book.execute("SELECT sql FROM sqlite_master")) == migrated
    kept = path.with_name(f"notebook.version-{version}.sqlite")
    assert kept.exists() == (version < migrate.newest())


def test_a_step_that_fails_leaves_the_version_before(path: Path, monkeypatch: pytest.MonkeyPatch):
    twice = "CREATE TABLE more (a);\nCREATE TABLE more (a);"
    bad = [*migrate.all_steps(), (migrate.newest() + 1, twice)]
    with notebook(path, writing=True):
        pass
    monkeypatch.setattr(migrate, "all_steps", lambda: bad)
    connection = sqlite3.connect(path, isolation_level=None)
    with pytest.raises(sqlite3.OperationalError):
        migrate.migrate(connection)
    assert migrate.version_of(connection) == bad[-2][0]
    assert connection.execute("SELECT count(*) FROM sqlite_master WHERE name = 'more'").fetchone()[0] == 0


def told(path: Path, writing: bool = True) -> str:
    before = path.read_bytes() if path.is_file() else b""
    with pytest.raises(NotebookError) as caught, notebook(path, writing=writing) as book:
        book.execute("INSERT INTO controllers VALUES ('x', 1)")
    assert (path.read_bytes() if path.is_file() else b"") == before
    assert "\n" not in str(caught.value) and str(path) in str(caught.value)
    assert caught.value.exit_code != 0
    return str(caught.value)


def test_no_notebook_yet(path: Path):
    assert "no notebook there yet; collect" in told(path, writing=False)
    assert not path.exists()


def test_a_newer_notebook(path: Path):
    with notebook(path, writing=True) as book:
        book.execute("PRAGMA user_version = 999")
    assert f"newer footlight (version 999, this one knows {migrate.newest()}); update" in told(path)


def test_a_text_file(path: Path):
    path.write_text("Dear diary, " * 100)
    assert "is no notebook, or is damaged" in told(path)


def test_an_empty_file(path: Path):
    path.touch()
    assert "an empty file" in told(path)


def test_another_programs_file(path: Path):
    other = sqlite3.connect(path)
    other.execute("CREATE TABLE songs (name)")
    other.commit()
    other.close()
    assert "another program's file" in told(path)


def test_a_damaged_notebook(path: Path):
    with notebook(path, writing=True):
        pass
    data = bytearray(path.read_bytes())
    data[4096 : 4096 * 6] = b"\xa5" * (4096 * 5)
    path.write_bytes(bytes(data))
    assert "is damaged; restore a back-up" in told(path)


def test_a_notebook_cut_short(path: Path):
    with notebook(path, writing=True):
        pass
    path.write_bytes(path.read_bytes()[:5000])
    assert "damaged" in told(path)


def test_a_locked_notebook(path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr("footlight.notebook.book.BUSY_WAIT_S", 0.05)
    with notebook(path, writing=True) as book:
        book.execute("BEGIN EXCLUSIVE")
        assert "in use by another program" in told(path)
        book.execute("ROLLBACK")


def test_a_folder_in_the_way(path: Path):
    path.mkdir()
    assert "cannot be opened" in told(path)


def test_a_file_in_the_way_of_the_folder(path: Path):
    path.touch()
    assert "File exists" in told(path / "notebook.sqlite")


def test_a_read_only_notebook_is_read_and_not_written(path: Path, monkeypatch: pytest.MonkeyPatch):
    with notebook(path, writing=True):
        pass
    connect = book_module._connect
    # What SQLite does by itself when the file cannot be written; root can write any.
    monkeypatch.setattr(book_module, "_connect", lambda path, mode: connect(path, "ro"))
    with notebook(path, writing=False) as book:
        assert book.execute("SELECT count(*) FROM sheets").fetchone()[0] == 0
    assert "read-only; nothing was changed" in told(path)


MOUNTINFO = """\
22 1 8:1 / / rw,relatime shared:1 - ext4 /dev/sda1 rw
30 22 0:30 / /home/ada/On\\040the\\040net rw - nfs4 server:/share rw
31 22 0:31 / /home/ada/On\\040the\\040net/disk rw - ext4 /dev/sdb1 rw
32 22 0:32 / /mnt/far rw shared:9 master:1 - fuse.sshfs far: rw
33 22 0:33 / /mnt/near rw - fuse.encfs near rw
"""


@pytest.mark.parametrize(
    ("folder", "kind"),
    [
        ("/home/ada", None),
        ("/home/ada/On the net", "nfs4"),
        ("/home/ada/On the net/deeper/still", "nfs4"),
        ("/home/ada/On the net/disk", None),
        ("/home/ada/On the net beside", None),
        ("/mnt/far/away", "fuse.sshfs"),
        ("/mnt/near", None),
    ],
)
def test_network_folders_on_linux(folder: str, kind: str | None):
    assert mounts.kind_in(mounts.read_mountinfo(MOUNTINFO), Path(folder)) == kind


def test_network_folders_on_macos():
    listing = (
        "/dev/disk3s1s1 on / (apfs, sealed, local, read-only, journaled)\n"
        "//ada@nas._smb._tcp.local/photos on /Volumes/photos (smbfs, nodev, nosuid, mounted by ada)\n"
    )
    found = mounts.read_mount_listing(listing)
    assert mounts.kind_in(found, Path("/Volumes/photos/notes")) == "smbfs"
    assert mounts.kind_in(found, Path("/Users/ada")) is None


def test_a_network_folder_is_refused_with_the_reason(path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(place, "network_kind", lambda folder: "nfs4")
    assert "on the network (nfs4), where two computers can write at once" in told(path)
    assert not path.exists()


def test_here_is_no_network_folder():
    assert mounts.network_kind(Path("/proc/self")) is None
