"""docs/notebook.md names every table and only commands that there are; released steps never change."""

import hashlib
import re
import sqlite3
from pathlib import Path

import pytest

from footlight.cli.main import COMMANDS
from footlight.kinds import BATH_KINDS, READING_KINDS
from footlight.notebook import exchange, migrate

PAGE = Path(__file__).parents[3] / "docs" / "notebook.md"

# A step that a printer's notebook has taken is not taken again: a change must be a step of its own.
RELEASED = {
    1: "4747f8b25bea8301",
    2: "442b8d44374e6446",
    3: "1562eb49af0b304c",
    4: "bc4f9933c13e4922",
    5: "6d559b4b84c05160",
    6: "53684350dd80dbb7",
    7: "b95a0b0668e9db5b",
}


def test_every_table_is_named(book: sqlite3.Connection):
    text = PAGE.read_text(encoding="utf-8")
    for name in exchange.tables(book):
        assert f"`{name}`" in text


def test_every_view_is_named(book: sqlite3.Connection):
    text = PAGE.read_text(encoding="utf-8")
    views = [row[0] for row in book.execute("SELECT name FROM sqlite_master WHERE type = 'view'")]
    assert len(views) == 4 and all(f"`{name}`" in text for name in views)


def test_the_questions_of_the_page_are_answered(book: sqlite3.Connection):
    (block,) = re.findall(r"```sql\n(.*?)```", PAGE.read_text(encoding="utf-8"), flags=re.DOTALL)
    questions = [question for question in block.split(";") if question.strip()]
    assert len(questions) == 3
    for question in questions:
        assert book.execute(question).fetchall() == []


def test_every_command_is_there():
    named = set(re.findall(r"`footlight ([a-z]+)", PAGE.read_text(encoding="utf-8")))
    assert named and named <= set(COMMANDS)


@pytest.mark.parametrize(
    ("table", "kinds"),
    [("baths", BATH_KINDS), ("readings", READING_KINDS), ("remarks", ("note", "defect", "verdict"))],
)
def test_a_table_takes_the_kinds_that_are_declared(book: sqlite3.Connection, table: str, kinds: tuple[str]):
    """A released step stays as it is: a new kind needs a step that makes its table anew."""
    (sql,) = book.execute("SELECT sql FROM sqlite_master WHERE name = ?", (table,)).fetchone()
    (allowed,) = re.findall(r"kind TEXT NOT NULL CHECK \(kind IN\s*\(([^)]*)\)", sql)
    assert tuple(re.findall(r"'([^']*)'", allowed)) == kinds


def test_released_steps_are_as_they_were():
    now = {version: hashlib.sha256(sql.encode()).hexdigest()[:16] for version, sql in migrate.all_steps()}
    assert {version: now[version] for version in RELEASED} == RELEASED
