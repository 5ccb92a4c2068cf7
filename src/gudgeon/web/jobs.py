"""The jobs that the pages show: one folder, or a shed of them; each opened when first asked for and kept open."""

from __future__ import annotations

import threading
from pathlib import Path

from gudgeon import workbench
from gudgeon.jobfile import JobInfo, jobs_in
from gudgeon.workbench.job import Job


class UnknownJob(LookupError):
    """No job of that name stands here."""


class Jobs:
    """The open jobs, by the name of their folder. ``patience`` is how long a page waits for an answer that is still being
    worked out before it shows the last one [s]; None waits as long as it takes."""

    def __init__(self, place: Path | str, *, patience: float | None = None) -> None:
        self.patience = patience
        self.place = Path(place).resolve()
        self._open: dict[str, Job] = {}
        self._lock = threading.Lock()
        self.single = (self.place / "job.sqlite").is_file() or not self.infos()
        if self.single:
            self._open[self.place.name] = workbench.open_job(self.place)

    def infos(self) -> list[JobInfo]:
        """The jobs of the shed, seen from the door."""
        return jobs_in(self.place)

    @property
    def only(self) -> str:
        """The name of the one job, where there is one."""
        return self.place.name if self.single else ""

    def named(self, name: str) -> Job:
        """An open job. Raises UnknownJob; the name is looked up among the shed's folders and never joined to a path."""
        with self._lock:
            if name in self._open:
                return self._open[name]
            found = None if self.single else next((info for info in self.infos() if info.folder.name == name), None)
            if found is None:
                raise UnknownJob(name)
            self._open[name] = workbench.open_job(found.folder)
            return self._open[name]

    def close(self) -> None:
        """Close all."""
        with self._lock:
            for job in self._open.values():
                job.close()
            self._open.clear()
