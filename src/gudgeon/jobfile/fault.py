"""What can go wrong with a job on disk. Each says what was found, what is wrong with it and what would be right."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from gudgeon.engine.history import Entry


class JobFault(Exception):
    """Any fault of a job on disk; ``str()`` is the sentence for the person."""


class NoJob(JobFault):
    """The folder is missing, or there is no job in it."""


class JobExists(JobFault):
    """A new job or a copy was to be made where something stands already."""


class NewerJob(JobFault):
    """The job was written by a newer version of the program."""


class ReadOnly(JobFault):
    """The job lies where nothing can be written."""


class Locked(JobFault):
    """Another program has held the job for longer than we waited."""


class Damaged(JobFault):
    """The database can't be read as it should."""


class NoPicture(JobFault, LookupError):
    """No picture of that digest is in the job."""


class Moved(JobFault):
    """The job has moved on since the person's page was filled, in a matter that the new entries touch too.

    ``entries`` are those written since by others, oldest first, so that both values can be shown.
    """

    def __init__(self, entries: Sequence[Entry]) -> None:
        self.entries = tuple(entries)
        last = self.entries[-1]
        super().__init__(
            f"Since this page was filled, {last.person} wrote about the same thing ({last.at}). Nothing was overwritten: "
            "look at both and say which stands."
        )


def missing(folder: Path) -> NoJob:
    """The folder is not there."""
    return NoJob(f"There is no folder {folder}; give the folder of a job, or start a new job there.")


def not_a_job(folder: Path, why: str) -> NoJob:
    """The folder is there, but no job is in it."""
    return NoJob(f"{folder} is not a job: {why}; a job's folder holds the file job.sqlite that the program wrote.")


def cannot_write(folder: Path) -> ReadOnly:
    """The folder or its database can't be written."""
    return ReadOnly(f"Nothing can be written in {folder}: copy the job to a disk that can be written, or open it to look.")
