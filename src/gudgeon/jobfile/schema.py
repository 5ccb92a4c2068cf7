"""The database of a job: its schema, written as numbered steps, each small, applied whole or not at all."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from pathlib import Path

from gudgeon.jobfile.fault import NewerJob, not_a_job

APPLICATION_ID = 0x47554447
"""``GUDG`` in ASCII; tells a job's database from any other SQLite file."""

SCHEMA_1 = """
CREATE TABLE entries (
    seq      INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    kind     TEXT NOT NULL,
    body     TEXT NOT NULL,
    person   TEXT NOT NULL,
    at       TEXT NOT NULL,
    previous TEXT NOT NULL,
    digest   TEXT NOT NULL
) STRICT;
CREATE TRIGGER entries_are_never_changed BEFORE UPDATE ON entries
BEGIN SELECT RAISE(ABORT, 'An entry is never changed: write a newer one that names it.'); END;
CREATE TRIGGER entries_are_never_removed BEFORE DELETE ON entries
BEGIN SELECT RAISE(ABORT, 'An entry is never removed.'); END;
CREATE TRIGGER entries_follow_one_another BEFORE INSERT ON entries
WHEN NEW.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM entries)
  OR EXISTS (SELECT 1 FROM entries WHERE id = NEW.id)
  OR NEW.previous IS NOT coalesce((SELECT digest FROM entries ORDER BY seq DESC LIMIT 1), printf('%064d', 0))
BEGIN SELECT RAISE(ABORT, 'An entry can only be added at the end of the history.'); END
"""

MIGRATIONS: tuple[str, ...] = (SCHEMA_1,)
"""The n-th leads from schema n - 1 to schema n. A released one is never edited."""

GUARDS = ("entries_are_never_changed", "entries_are_never_removed", "entries_follow_one_another")


def statements(script: str) -> list[str]:
    """The single statements of a script (``executescript`` would commit half-way, and that must not happen)."""
    found, piece = [], ""
    for line in script.strip().splitlines(keepends=True):
        piece += line
        if sqlite3.complete_statement(piece):
            found.append(piece.strip())
            piece = ""
    return [*found, piece.strip()] if piece.strip() else found


def version_of(connection: sqlite3.Connection) -> int:
    """The schema number of a database."""
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def lay_out(connection: sqlite3.Connection) -> None:
    """Turn an empty database into a job's, in the newest schema."""
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    bring_up(connection)


def recognise(connection: sqlite3.Connection, folder: Path, migrations: Sequence[str] = MIGRATIONS) -> int:
    """The schema number of a job's database. Raises NoJob for another program's file and NewerJob for a newer schema."""
    mark = int(connection.execute("PRAGMA application_id").fetchone()[0])
    if mark != APPLICATION_ID:
        raise not_a_job(folder, "its job.sqlite was written by another program")
    version = version_of(connection)
    if version > len(migrations):
        raise NewerJob(
            f"{folder} was written by a newer gudgeon (schema {version}; this one knows up to {len(migrations)}): "
            "open it with that version, it has not been touched."
        )
    if version < 1:
        raise not_a_job(folder, "its job.sqlite was never finished")
    return version


def migrate(connection: sqlite3.Connection, folder: Path, migrations: Sequence[str] = MIGRATIONS) -> None:
    """Bring an older job to the newest schema. A copy of the database is put beside it first and stays there."""
    version = recognise(connection, folder, migrations)
    if version == len(migrations):
        return
    kept = folder / f"job.before-schema-{len(migrations)}.sqlite"
    if not kept.exists():
        copy = sqlite3.connect(kept)
        try:
            connection.backup(copy)
        finally:
            copy.close()
    bring_up(connection, migrations)


def bring_up(connection: sqlite3.Connection, migrations: Sequence[str] = MIGRATIONS) -> None:
    """Apply the steps that are wanting, one transaction each: the change and its number stand together or not at all."""
    for number in range(version_of(connection) + 1, len(migrations) + 1):
        connection.execute("BEGIN IMMEDIATE")
        try:
            # Another program may have taken this step while we waited for the lock.
            if version_of(connection) < number:
                for statement in statements(migrations[number - 1]):
                    connection.execute(statement)
                connection.execute(f"PRAGMA user_version = {number}")
            connection.execute("COMMIT")
        except BaseException:
            connection.execute("ROLLBACK")
            raise
