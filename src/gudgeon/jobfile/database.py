"""The connections to a job's database: one that writes, and as many that only read as are in use at once."""

from __future__ import annotations

import contextlib
import os
import shutil
import sqlite3
import tempfile
import threading
from collections.abc import Iterator
from pathlib import Path

from gudgeon.jobfile import layout
from gudgeon.jobfile.fault import Damaged, JobFault, Locked, ReadOnly, cannot_write, not_a_job
from gudgeon.jobfile.schema import migrate, recognise


class Database:
    """The database of one open job. Any thread may use it."""

    def __init__(self, folder: Path, *, read_only: bool, timeout: float) -> None:
        """Opens the database and brings it to the newest schema. Raises NoJob, NewerJob, ReadOnly, Locked, Damaged."""
        self.folder = folder
        self.read_only = read_only
        self._timeout = timeout
        self._lock = threading.RLock()
        self._idle: list[sqlite3.Connection] = []
        self._writer: sqlite3.Connection | None = None
        self._closed = False
        self._elsewhere: tempfile.TemporaryDirectory[str] | None = None
        try:
            with self._explained():
                self._start()
        except BaseException:
            self.close()
            raise

    def _start(self) -> None:
        if self.read_only:
            with self._reader() as reader:
                recognise(reader, self.folder)
            return
        path = self.folder / layout.DATABASE
        if not (writable(self.folder) and writable(path)):
            raise cannot_write(self.folder)
        writer = sqlite3.connect(path, timeout=self._timeout, isolation_level=None, check_same_thread=False)
        self._writer = writer
        recognise(writer, self.folder)
        writer.execute("PRAGMA synchronous = FULL")
        migrate(writer, self.folder)
        # Asks for the write lock once, so that a held lock is found now and not at the bench.
        writer.execute("BEGIN IMMEDIATE")
        writer.execute("ROLLBACK")

    def close(self) -> None:
        """Close every connection."""
        with self._lock:
            for connection in (*self._idle, self._writer):
                if connection is not None:
                    connection.close()
            self._idle, self._writer, self._closed = [], None, True
            if self._elsewhere is not None:
                self._elsewhere.cleanup()
                self._elsewhere = None

    @contextlib.contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """The one writer, inside a short transaction that stands or falls as a whole."""
        self.refuse_if_read_only()
        with self._lock, self._explained():
            if self._writer is None:
                raise self._was_closed()
            self._writer.execute("BEGIN IMMEDIATE")
            try:
                yield self._writer
                self._writer.execute("COMMIT")
            except BaseException:
                if self._writer.in_transaction:
                    self._writer.execute("ROLLBACK")
                raise

    @contextlib.contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """A connection that cannot write."""
        with self._explained(), self._reader() as reader:
            yield reader

    @contextlib.contextmanager
    def _reader(self) -> Iterator[sqlite3.Connection]:
        """A connection that cannot write, for the use of one thread; handed back for the next."""
        with self._lock:
            if self._closed:
                raise self._was_closed()
            reader = self._idle.pop() if self._idle else None
        reader = reader or self._new_reader()
        try:
            yield reader
        except BaseException:
            reader.close()
            raise
        with self._lock:
            if self._closed:
                reader.close()
            else:
                self._idle.append(reader)

    def _was_closed(self) -> JobFault:
        return JobFault(f"The job {self.folder} was closed; open it again.")

    def _new_reader(self) -> sqlite3.Connection:
        path, how = self.folder / layout.DATABASE, "mode=ro"
        if self.read_only and writable(self.folder):
            # A connection that may write clears the log away when it closes; ``query_only`` still keeps it from writing.
            how = "mode=rw"
        elif self.read_only:
            # On a disk that can't be written there is nobody else to reckon with (sqlite.org/uri.html#uriimmutable).
            path, how = self._settled(path), "mode=ro&immutable=1"
        address = f"{path.resolve().as_uri()}?{how}"
        reader = sqlite3.connect(address, uri=True, timeout=self._timeout, isolation_level=None, check_same_thread=False)
        reader.execute("PRAGMA query_only = ON")
        return reader

    def _settled(self, path: Path) -> Path:
        """The database with its log worked in: where the disk can't be written and a log is left over, a copy elsewhere."""
        log = path.with_name(path.name + "-wal")
        if not log.is_file() or log.stat().st_size == 0:
            return path
        with self._lock:
            if self._elsewhere is None:
                self._elsewhere = tempfile.TemporaryDirectory(prefix="gudgeon-")
                copy = Path(self._elsewhere.name) / path.name
                shutil.copyfile(path, copy)
                shutil.copyfile(log, copy.with_name(log.name))
                sqlite3.connect(copy).execute("PRAGMA wal_checkpoint(TRUNCATE)").connection.close()
            return Path(self._elsewhere.name) / path.name

    def refuse_if_read_only(self) -> None:
        """Raise ReadOnly where the job was opened only to look."""
        if self.read_only:
            raise ReadOnly(f"The job {self.folder} was opened only to look at; open it for work to write in it.")

    @contextlib.contextmanager
    def _explained(self) -> Iterator[None]:
        """SQLite's faults in plain words."""
        try:
            yield
        except sqlite3.Error as fault:
            raise _in_plain_words(fault, self.folder) from fault


def writable(path: Path) -> bool:
    """Whether this user may write there."""
    return os.access(path, os.W_OK, effective_ids=os.access in os.supports_effective_ids)


def _in_plain_words(fault: sqlite3.Error, folder: Path) -> Exception:
    code = getattr(fault, "sqlite_errorcode", 0) & 0xFF
    if code in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        return Locked(f"Another program is writing in {folder} and did not finish; close it there, then try again.")
    if code in (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM):
        return cannot_write(folder)
    if code == sqlite3.SQLITE_FULL:
        return JobFault(f"The disk that holds {folder} is full; nothing was written. Make room, then try again.")
    if code == sqlite3.SQLITE_NOTADB:
        return not_a_job(folder, "its job.sqlite is not an SQLite database")
    if code in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_IOERR):
        return Damaged(
            f"{folder}/job.sqlite is damaged ({fault}); take the newest good copy of the folder and keep this one too."
        )
    return Damaged(f"{folder}/job.sqlite could not be used ({fault}).")
