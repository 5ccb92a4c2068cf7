"""The check of a job: is everything just as it was written?"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from typing import Any, Literal

from gudgeon.engine.history import Entry, Fault, canonical, first_fault
from gudgeon.jobfile.fault import JobFault
from gudgeon.jobfile.jobfile import COLUMNS, JobFile
from gudgeon.jobfile.pictures import digest_of
from gudgeon.jobfile.schema import GUARDS

Standing = Literal["faulty", "anchored", "consistent, not anchored"]


def check(job: JobFile, *, against: str = "") -> list[Fault]:
    """Everything found wrong with a job, the history first; an empty list when nothing was.

    Looks at the chain of entries (and names the first that was altered, removed or moved), at the bytes of every picture
    against its digest, at pictures that entries name and that are missing, at the database itself and at the guards that
    keep entries from being changed. ``against`` is the digest of a head that was printed or kept elsewhere: it must lie
    in the chain. Without one a chain that was rewritten from some entry to its very end looks whole: see ``standing``.

    ``Fault.seq`` is 0 where the fault is not in an entry.
    """
    try:
        with job.database.reading() as reader:
            rows = reader.execute(f"SELECT {COLUMNS} FROM entries ORDER BY seq").fetchall()
            rest = [*_database_faults(reader), *_guard_faults(reader)]
    except JobFault as fault:
        return [Fault(0, str(fault))]
    entries = [_tolerant(row) for row in rows]
    return [*_chain_faults(entries, rows, against), *_picture_faults(job, entries), *rest]


def standing(faults: list[Fault], *, against: str = "") -> Standing:
    """What a check proves, in words: "anchored" only if a head kept elsewhere lies in the chain."""
    if faults:
        return "faulty"
    return "anchored" if against else "consistent, not anchored"


def _tolerant(row: tuple[Any, ...]) -> Entry:
    """The entry of a row, even where its body is no longer JSON."""
    seq, id_, kind, body, person, at, previous, digest = row
    try:
        content = json.loads(body)
    except ValueError:
        content = {"unreadable": str(body)}
    return Entry(seq=seq, id=id_, kind=kind, body=content, person=person, at=at, previous=previous, digest=digest)


def _chain_faults(entries: list[Entry], rows: list[tuple[Any, ...]], against: str) -> Iterator[Fault]:
    broken = first_fault(entries)
    # A hidden second value for one key, or other spelling, would pass the digest: the text itself must be canonical.
    respelt = next((entry for entry, row in zip(entries, rows, strict=True) if not _as_written(entry, row[3])), None)
    if respelt and (broken is None or respelt.seq < broken.seq):
        broken = Fault(respelt.seq, f"Entry {respelt.seq} ({respelt.kind}, {respelt.at}) was altered after it was written.")
    if broken:
        yield broken
    if not against:
        return
    anchor = next((entry.seq for entry in entries if entry.digest == against), None)
    if anchor is None:
        yield Fault(
            broken.seq if broken else 0,
            f"The head {against[:12]}... that was kept elsewhere is not in this history: it was rewritten or cut short since, "
            "or belongs to another job.",
        )


def _as_written(entry: Entry, text: str) -> bool:
    try:
        return canonical(entry.body).decode("utf-8") == text
    except (TypeError, ValueError):
        return False


def _picture_faults(job: JobFile, entries: list[Entry]) -> Iterator[Fault]:
    named = _named_pictures(entries)
    altered = {path.name[:64]: path for path in job.pictures() if digest_of(path) != path.name[:64]}
    for digest, entry in named.items():
        name = f" ({entry.body['name']})" if entry.kind == "picture" and entry.body.get("name") else ""
        if digest in altered:
            yield Fault(entry.seq, f"The picture{name} of entry {entry.seq} was altered: its bytes are no longer those stored.")
        elif not job.has_picture(digest):
            yield Fault(entry.seq, f"The picture{name} of entry {entry.seq} is missing: {digest[:12]}... is not in pictures.")
    for digest in altered.keys() - named.keys():
        yield Fault(0, f"The file {digest[:12]}... in pictures was altered; no entry names it.")


def _named_pictures(entries: list[Entry]) -> dict[str, Entry]:
    """Digest -> the first entry that names it."""
    named: dict[str, Entry] = {}
    for entry in entries:
        if not isinstance(entry.body, dict):
            continue
        found = [entry.body.get("digest")] if entry.kind == "picture" else entry.body.get("pictures", ())
        for digest in found if isinstance(found, list | tuple) else ():
            if isinstance(digest, str):
                named.setdefault(digest, entry)
    return named


def _database_faults(reader: sqlite3.Connection) -> Iterator[Fault]:
    for (sentence,) in reader.execute("PRAGMA integrity_check"):
        if sentence != "ok":
            yield Fault(0, f"The database is damaged: {sentence}.")


def _guard_faults(reader: sqlite3.Connection) -> Iterator[Fault]:
    there = {name for (name,) in reader.execute("SELECT name FROM sqlite_schema WHERE type = 'trigger'")}
    for guard in GUARDS:
        if guard not in there:
            yield Fault(0, f"The guard “{guard.replace('_', ' ')}” was taken off the database.")
