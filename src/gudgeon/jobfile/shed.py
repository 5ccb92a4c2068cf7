"""A shed: a folder in which several jobs stand."""

from __future__ import annotations

import json
import sqlite3
from dataclasses import dataclass
from pathlib import Path

from gudgeon.jobfile import layout
from gudgeon.jobfile.fault import JobFault
from gudgeon.jobfile.jobfile import JobFile


@dataclass(frozen=True, slots=True, kw_only=True)
class JobInfo:
    """A job seen from the door: its folder, the engine's name, how many entries, when last changed (ISO 8601).

    ``fault`` is the sentence that says why it can't be opened; then the rest is what the folder's name tells.
    """

    folder: Path
    name: str
    entries: int = 0
    last_change: str = ""
    fault: str = ""


def jobs_in(shed: str | Path) -> list[JobInfo]:
    """The jobs that stand in a shed, in order of folder name; one that can't be opened is listed with the reason."""
    shed = Path(shed)
    if not shed.is_dir():
        return []
    return [_seen(folder) for folder in sorted(shed.iterdir()) if not folder.name.startswith(".") and _is_job(folder)]


def _is_job(folder: Path) -> bool:
    return (folder / layout.DATABASE).is_file()


def _seen(folder: Path) -> JobInfo:
    try:
        with JobFile.open(folder, read_only=True, timeout=1.0) as job, job.database.reading() as reader:
            return _info(folder, reader)
    except JobFault as fault:
        return JobInfo(folder=folder, name=folder.name, fault=str(fault))


def _info(folder: Path, reader: sqlite3.Connection) -> JobInfo:
    count, last = reader.execute("SELECT count(*), (SELECT at FROM entries ORDER BY seq DESC LIMIT 1) FROM entries").fetchone()
    row = reader.execute("SELECT body FROM entries WHERE kind IN ('job', 'outline') ORDER BY seq DESC LIMIT 1").fetchone()
    name = ""
    if row:
        outline = json.loads(row[0]).get("outline", {})
        name = str(outline.get("name", ""))
    return JobInfo(folder=folder, name=name or folder.name, entries=int(count), last_change=str(last or ""))
