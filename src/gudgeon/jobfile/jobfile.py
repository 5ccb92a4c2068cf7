"""One job on disk: a folder with a database that only grows, its pictures, and a cache."""

from __future__ import annotations

import contextlib
import json
import os
import shutil
import sqlite3
import uuid
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Self

from gudgeon.engine.collector import collector_held
from gudgeon.engine.history import FIRST, Entry, canonical, sealed
from gudgeon.engine.quick import quick
from gudgeon.jobfile import layout
from gudgeon.jobfile.cache import Cache
from gudgeon.jobfile.database import Database
from gudgeon.jobfile.fault import Damaged, JobExists, Moved, ReadOnly, missing, not_a_job
from gudgeon.jobfile.pictures import PictureStore
from gudgeon.jobfile.schema import lay_out

_make_entry = quick(Entry)
_decode = json.JSONDecoder().decode
COLUMNS = "seq, id, kind, body, person, at, previous, digest"


@dataclass(frozen=True, slots=True)
class Draft:
    """A change about to be written. ``id`` may be a ticket given elsewhere (by a phone); empty, one is given here."""

    kind: str
    body: Mapping[str, Any]
    id: str = ""


class JobFile:
    """A job that is open. Any thread may use it, and several programs may hold the same job open.

    Whatever ``append`` or ``add_picture`` has returned survives a pulled plug: the database runs in WAL mode with
    ``synchronous=FULL``, which forces the log to disk before a commit returns (sqlite.org/pragma.html#pragma_synchronous).
    """

    def __init__(self, folder: Path, *, read_only: bool = False, timeout: float = 5.0) -> None:
        """Use ``create`` or ``open``."""
        self.folder = folder
        self.database = Database(folder, read_only=read_only, timeout=timeout)
        self._pictures = PictureStore(folder / layout.PICTURES)
        self._cache = Cache(folder / layout.CACHE)

    # -- making, opening, closing ---------------------------------------------------------------------------------

    @classmethod
    def create(cls, folder: str | Path, *, timeout: float = 5.0) -> JobFile:
        """Make a new, empty job. The folder must not exist, or be empty. Raises JobExists, ReadOnly."""
        folder = Path(folder)
        with _built_beside(folder) as beside:
            layout.furnish(beside)
            connection = sqlite3.connect(beside / layout.DATABASE, isolation_level=None)
            try:
                lay_out(connection)
            finally:
                connection.close()
        return cls.open(folder, timeout=timeout)

    @classmethod
    def open(cls, folder: str | Path, *, read_only: bool = False, timeout: float = 5.0) -> JobFile:
        """Open a job; an older one is brought to the newest schema, after a copy was put beside it.

        ``read_only`` opens it just for looking, which also works from a disk that can't be written.
        ``timeout`` [s] is how long to wait for another program that holds the job.
        Raises NoJob, NewerJob, ReadOnly, Locked, Damaged.
        """
        folder = Path(folder)
        if not folder.is_dir():
            raise missing(folder)
        if not (folder / layout.DATABASE).is_file():
            raise not_a_job(folder, "there is no job.sqlite in it")
        return cls(folder, read_only=read_only, timeout=timeout)

    def close(self) -> None:
        """Close the job; nothing is lost by not calling it."""
        self.database.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    # -- entries --------------------------------------------------------------------------------------------------

    def append(
        self,
        drafts: Sequence[Draft],
        *,
        person: str,
        at: str | None = None,
        after: str | None = None,
        touching: Callable[[Entry], bool] | None = None,
    ) -> list[Entry]:
        """Write entries, all or none; when this returns they survive a pulled plug.

        A draft whose ``id`` is already in the job is not written again: the entry that is there is returned in its
        place, so a ticket sent twice is delivered once.

        Parameters
        ----------
        person, at : who, and when (ISO 8601; now, in UTC, if not given).
        after : the head (``head()``) that the person's page was filled from. If the history has moved on since by
            entries for which ``touching`` is true (any entry, if it is not given), nothing is written and Moved is raised
            with those entries. Entries made from these very drafts don't count: sending again is no conflict.

        Raises
        ------
        Moved, Locked, ReadOnly, Damaged; ValueError where person or kind is empty or ``after`` is not in this history;
        TypeError where a body holds a float.
        """
        if not person.strip():
            raise ValueError("A change was about to be written without a name; give the name of the person who makes it.")
        bodies = [canonical(draft.body).decode("utf-8") for draft in drafts]
        moment = at or datetime.now(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
        with self.database.writing() as writer:
            known = _present(writer, [draft.id for draft in drafts if draft.id])
            if after is not None:
                _refuse_if_moved(writer, after, touching, set(known))
            return _write(writer, drafts, bodies, known, person=person, at=moment)

    def entries(self, after: int = 0) -> list[Entry]:
        """Entries in order, those with a ``seq`` greater than ``after``. Raises Damaged where one can't be read."""
        with self.database.reading() as reader:
            rows = reader.execute(f"SELECT {COLUMNS} FROM entries WHERE seq > ? ORDER BY seq", (after,)).fetchall()
        with collector_held():
            return [_entry(row) for row in rows]

    def head(self) -> str:
        """The digest of the newest entry; "" for a job without entries."""
        with self.database.reading() as reader:
            row = reader.execute("SELECT digest FROM entries ORDER BY seq DESC LIMIT 1").fetchone()
        return str(row[0]) if row else ""

    # -- pictures and cache ---------------------------------------------------------------------------------------

    def add_picture(self, data: bytes) -> str:
        """Store a picture or document durably; returns its SHA-256. The same bytes are stored once. Raises ReadOnly."""
        self.database.refuse_if_read_only()
        return self._pictures.add(data)

    def picture(self, digest: str) -> bytes:
        """The bytes of a picture. Raises NoPicture."""
        return self._pictures.read(digest)

    def picture_path(self, digest: str) -> Path:
        """The file of a picture, for reading only. Raises NoPicture."""
        return self._pictures.path(digest)

    def has_picture(self, digest: str) -> bool:
        """Whether a picture is in the job."""
        return self._pictures.has(digest)

    def pictures(self) -> list[Path]:
        """Every picture's file, in order of digest."""
        return list(self._pictures)

    def cached(self, name: str) -> bytes | None:
        """What was kept in the cache under a name, or None."""
        return self._cache.read(name)

    def cache(self, name: str, data: bytes) -> None:
        """Keep something that can be worked out again. ``name`` may hold letters, digits and ``. _ - /``."""
        self._cache.keep(name, data)

    # -- copying --------------------------------------------------------------------------------------------------

    def copy_to(self, folder: str | Path) -> None:
        """A whole copy of the job as it stands now, made safely while it is in use. Raises JobExists, ReadOnly.

        The database goes first: a picture is stored before the entry that names it, so every picture named in the copy
        is there to be copied. The cache stays behind.
        """
        with _built_beside(Path(folder)) as beside:
            layout.furnish(beside)
            with self.database.reading() as reader:
                copy = sqlite3.connect(beside / layout.DATABASE, isolation_level=None)
                try:
                    reader.backup(copy)
                finally:
                    copy.close()
            for path in self._pictures:
                drawer = beside / layout.PICTURES / path.parent.name
                drawer.mkdir(exist_ok=True)
                shutil.copyfile(path, drawer / path.name)
            for path in sorted(beside.rglob("*")):
                _force(path)


def _entry(row: Sequence[Any]) -> Entry:
    seq, id_, kind, body, person, at, previous, digest = row
    try:
        content = _decode(body)
    except ValueError as fault:
        raise Damaged(f"Entry {seq} ({kind}) can't be read: {fault}; check the job.") from fault
    return _make_entry(seq=seq, id=id_, kind=kind, body=content, person=person, at=at, previous=previous, digest=digest)


def _present(writer: sqlite3.Connection, ids: Sequence[str]) -> dict[str, Entry]:
    found = {}
    for id_ in ids:
        row = writer.execute(f"SELECT {COLUMNS} FROM entries WHERE id = ?", (id_,)).fetchone()
        if row:
            found[id_] = _entry(row)
    return found


def _refuse_if_moved(writer: sqlite3.Connection, after: str, touching: Callable[[Entry], bool] | None, own: set[str]) -> None:
    seen = 0
    if after not in ("", FIRST):
        row = writer.execute("SELECT seq FROM entries WHERE digest = ?", (after,)).fetchone()
        if row is None:
            raise ValueError(f"This page was filled from another job or copy (head {after[:12]}...); load it again.")
        seen = int(row[0])
    rows = writer.execute(f"SELECT {COLUMNS} FROM entries WHERE seq > ? ORDER BY seq", (seen,)).fetchall()
    since = [entry for entry in map(_entry, rows) if entry.id not in own and (touching is None or touching(entry))]
    if since:
        raise Moved(since)


def _write(
    writer: sqlite3.Connection, drafts: Sequence[Draft], bodies: Sequence[str], known: dict[str, Entry], *, person: str, at: str
) -> list[Entry]:
    row = writer.execute("SELECT seq, digest FROM entries ORDER BY seq DESC LIMIT 1").fetchone()
    seq, previous = row or (0, FIRST)
    written: list[Entry] = []
    for draft, body in zip(drafts, bodies, strict=True):
        if draft.id in known:
            written.append(known[draft.id])
            continue
        if not draft.kind:
            raise ValueError("An entry without a kind was about to be written; name what changes.")
        seq += 1
        entry = sealed(
            seq=seq,
            id=draft.id or uuid.uuid4().hex,
            kind=draft.kind,
            body=json.loads(body),
            person=person,
            at=at,
            previous=previous,
        )
        writer.execute(
            f"INSERT INTO entries ({COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
            (entry.seq, entry.id, entry.kind, body, entry.person, entry.at, entry.previous, entry.digest),
        )
        known[entry.id], previous = entry, entry.digest
        written.append(entry)
    return written


def _force(path: Path) -> None:
    if path.is_dir():
        layout.force_folder(path)
        return
    with path.open("rb") as file:
        os.fsync(file.fileno())


@contextlib.contextmanager
def _built_beside(folder: Path) -> Iterator[Path]:
    """A folder under another name, that gets its own name only when it is complete."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise JobExists(f"{folder} is there already and not empty; give a new name.")
    beside = folder.absolute().with_name(f".{folder.absolute().name}.{uuid.uuid4().hex[:8]}.being-made")
    try:
        beside.mkdir(parents=True)
    except OSError as fault:
        raise ReadOnly(f"Nothing can be written in {beside.parent}: {fault.strerror}; choose another place.") from fault
    try:
        yield beside
        layout.force_folder(beside)
        if folder.is_dir():
            folder.rmdir()
        beside.rename(folder)
        layout.force_folder(folder.absolute().parent)
    except BaseException:
        shutil.rmtree(beside, ignore_errors=True)
        raise
