from __future__ import annotations

import shutil
import sqlite3
from pathlib import Path

import pytest

from gudgeon.engine.history import first_fault
from gudgeon.jobfile import JobFile, NewerJob, check
from gudgeon.jobfile.schema import MIGRATIONS, bring_up, migrate, statements, version_of
from tests.jobfile.conftest import reading

TRUE_FILES = Path(__file__).parent.parent / "jobfiles"

HEAD_1 = "e3e995b34134d5d1c60ded13a80f1a672301b412e53280d241de6bb76015df19"
"""Printed when the file of schema 1 was made; a later version that changed what an entry means would not find it."""


def true_file(number: int, folder: Path) -> Path:
    folder.mkdir()
    shutil.copyfile(TRUE_FILES / f"schema-{number}" / "job.sqlite", folder / "job.sqlite")
    return folder


@pytest.mark.parametrize("number", range(1, len(MIGRATIONS) + 1))
def test_every_released_schema_opens_and_can_be_written(number: int, tmp_path: Path) -> None:
    with JobFile.open(true_file(number, tmp_path / "job")) as job:
        entries = job.entries()
        assert [entry.id for entry in entries[:4]] == ["begin", "first", "second", "third"]
        assert [entry.body.get("reading") for entry in entries[:4]] == [None, "5.128", "5.138", None]
        assert first_fault(entries) is None
        assert check(job, against=HEAD_1) == []
        job.append([reading("5.129")], person="Owner")
        assert check(job, against=HEAD_1) == []


def test_true_file_of_schema_1_is_in_schema_1(tmp_path: Path) -> None:
    assert version_of(sqlite3.connect(true_file(1, tmp_path / "job") / "job.sqlite")) == 1


def step_to_2() -> tuple[str, ...]:
    return (*MIGRATIONS, "CREATE TABLE tags (tag INTEGER PRIMARY KEY) STRICT;\nINSERT INTO tags VALUES (7);")


def connected(folder: Path) -> sqlite3.Connection:
    return sqlite3.connect(folder / "job.sqlite", isolation_level=None)


def test_step_is_taken_after_a_copy(tmp_path: Path) -> None:
    folder = true_file(1, tmp_path / "job")
    connection = connected(folder)
    migrate(connection, folder, step_to_2())
    assert version_of(connection) == 2
    assert connection.execute("SELECT tag FROM tags").fetchall() == [(7,)]
    kept = sqlite3.connect(folder / "job.before-schema-2.sqlite")
    assert version_of(kept) == 1
    assert kept.execute("SELECT count(*) FROM entries").fetchone() == (4,)


def test_step_is_taken_whole_or_not_at_all(tmp_path: Path) -> None:
    folder = true_file(1, tmp_path / "job")
    connection = connected(folder)
    spoilt = (*MIGRATIONS, "CREATE TABLE tags (tag INTEGER) STRICT;\nINSERT INTO tags VALUES ('seven');")
    with pytest.raises(sqlite3.Error):
        migrate(connection, folder, spoilt)
    assert version_of(connection) == 1
    assert connection.execute("SELECT name FROM sqlite_schema WHERE name = 'tags'").fetchall() == []
    migrate(connection, folder, step_to_2())
    assert version_of(connection) == 2


def test_step_already_taken_is_not_taken_again(tmp_path: Path) -> None:
    folder = true_file(1, tmp_path / "job")
    migrate(connected(folder), folder, step_to_2())
    bring_up(connected(folder), step_to_2())
    assert connected(folder).execute("SELECT count(*) FROM tags").fetchone() == (1,)


def test_older_program_refuses_the_newer_file(tmp_path: Path) -> None:
    folder = true_file(1, tmp_path / "job")
    migrate(connected(folder), folder, step_to_2())
    with pytest.raises(NewerJob, match="schema 2"):
        JobFile.open(folder)


def test_script_is_split_at_whole_statements() -> None:
    assert [text.split()[1] for text in statements(MIGRATIONS[0])] == ["TABLE", "TRIGGER", "TRIGGER", "TRIGGER"]
