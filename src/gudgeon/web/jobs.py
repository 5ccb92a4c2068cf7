"""The jobs that the pages show: one folder, or a shed of them; each opened when first asked for and kept open."""

from __future__ import annotations

import threading
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar, cast

from gudgeon import workbench
from gudgeon.jobfile import JobInfo, jobs_in
from gudgeon.workbench.job import Job

if TYPE_CHECKING:
    from gudgeon.planning import Forecast

T = TypeVar("T")


class UnknownJob(LookupError):
    """No job of that name stands here."""


class Jobs:
    """The open jobs, by the name of their folder."""

    def __init__(self, place: Path | str) -> None:
        self.place = Path(place).resolve()
        self._open: dict[str, Job] = {}
        self._kept: dict[str, tuple[str, dict[object, Any]]] = {}
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

    def kept(self, name: str, what: object, make: Callable[[], T]) -> T:
        """Something made from a job as it stands, kept until the job changes. ``what`` must tell it from everything else."""
        head = self.named(name).snapshot().head
        held, things = self._kept.get(name, ("", {}))
        if held != head:
            things = {}
            self._kept[name] = (head, things)
        if what not in things:
            things[what] = make()
        return cast(T, things[what])

    def forecast(self, name: str, today: date) -> Forecast:
        """The forecast of a job as it stands, made once for each state of it and each day."""
        job = self.named(name)
        return self.kept(name, ("forecast", today), lambda: workbench.forecast(job, today=today))

    def close(self) -> None:
        """Close all."""
        with self._lock:
            for job in self._open.values():
                job.close()
            self._open.clear()
