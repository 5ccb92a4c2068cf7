"""What lies where in a job's folder, and writing to it so that a pulled plug leaves either the old or the new."""

from __future__ import annotations

import os
import uuid
from pathlib import Path

DATABASE = "job.sqlite"
PICTURES = "pictures"
CACHE = "cache"
README = "README.txt"

README_TEXT = """\
This folder is one job: the record of bringing one engine back to life. It was written by the program gudgeon.
To keep it, keep the whole folder. To give it to somebody, give the whole folder (the folder cache may be left out).

What is here
  job.sqlite   an SQLite 3 database (the file format is public and free: sqlite.org). While the job is open, two
               more files stand beside it, job.sqlite-wal and job.sqlite-shm; they belong to it and must stay with it.
  pictures     every photograph and document, byte for byte as it was given. A file is named by the SHA-256 of its
               bytes; the first two letters of the name are also the name of the folder it lies in.
  cache        thumbnails and answers that can be worked out again. Nothing is lost by deleting it.

How to read it without the program, even in twenty years
  Open job.sqlite with any SQLite reader. There is one table, entries, and one row for every change ever made, oldest
  first. Nothing is ever overwritten: a correction is a new row whose body names the old one under "supersedes".
    seq        1, 2, 3 ... without gaps
    id         the name of the entry, by which later entries refer to it
    kind       what it is: job, outline, reading, part, picture, verdict, order ...
    body       the content, as JSON text. Readings stand there just as they were typed, with their unit.
               Numbers that are not whole are written as text, lengths in metres unless a unit stands beside them.
    person     who
    at         when (UTC)
    previous   the digest of the entry before; 64 zeros for the first
    digest     SHA-256 of the entry's canonical bytes: the JSON object of seq, id, kind, body, person, at and previous,
               keys sorted, no spaces, UTF-8, as RFC 8785 (JSON Canonicalization Scheme) says
  So every digest covers the whole history before it. If one printed in a record stands in this file, everything up to
  that entry is as it was when the record was printed.
"""

CACHE_TAG = "Signature: 8a477f597d28d172789f06886806bc55\n# Thumbnails and answers that gudgeon can work out again.\n"


def write_durably(path: Path, data: bytes) -> None:
    """Write beside, force to disk, rename, force the folder to disk: afterwards the file survives a pulled plug."""
    beside = path.with_name(f".{uuid.uuid4().hex}.part")
    try:
        with beside.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)
    force_folder(path.parent)


def force_folder(folder: Path) -> None:
    """Force a folder's list of names to disk, where the system allows it (Windows does not)."""
    try:
        handle = os.open(folder, os.O_RDONLY)
    except OSError:
        return
    try:
        os.fsync(handle)
    except OSError:
        pass
    finally:
        os.close(handle)


def furnish(folder: Path) -> None:
    """Put everything but the database into a new job's folder."""
    (folder / PICTURES).mkdir()
    (folder / CACHE).mkdir()
    (folder / CACHE / "CACHEDIR.TAG").write_text(CACHE_TAG, encoding="utf-8")
    write_durably(folder / README, README_TEXT.encode("utf-8"))
