"""A job that is open: the file on disk, and what stands now, folded as far as the history goes."""

from __future__ import annotations

import threading
from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, Any, TypeVar, cast

from gudgeon.engine.fold import Fold
from gudgeon.engine.history import Entry
from gudgeon.engine.outline import Outline
from gudgeon.engine.plain import to_plain
from gudgeon.engine.snapshot import Snapshot
from gudgeon.jobfile import Draft, JobFile
from gudgeon.workbench.faults import Refused
from gudgeon.workbench.standing import Answers

if TYPE_CHECKING:
    from gudgeon.engine.bench import Bench
    from gudgeon.engine.reckoning import Reckoning

T = TypeVar("T")


class Job:
    """One job, open. Safe to use from several threads; close it, or use it in a ``with``."""

    def __init__(self, file: JobFile) -> None:
        self.file = file
        self.answers = Answers()
        self._lock = threading.RLock()
        self._fold = Fold()
        self._snapshot: Snapshot | None = None
        self._kept: dict[object, tuple[tuple[object, ...], Any]] = {}

    @property
    def folder(self) -> Path:
        """Where the job is on disk."""
        return self.file.folder

    def snapshot(self) -> Snapshot:
        """What stands now. Only entries written since the last call are read."""
        with self._lock:
            entries = self.file.entries(after=self._fold.entries)
            if entries or self._snapshot is None:
                self._fold.feed(entries)
                self._snapshot = self._fold.snapshot()
            return self._snapshot

    def reckoning(self) -> Reckoning:
        """The reckoning of what stands now, made once for each state of the job; the last one for a caller in a hurry
        (``workbench.standing``)."""
        return self._reckoned()[0]

    def bench(self) -> Bench:
        """What the systems saw in that reckoning."""
        return self._reckoned()[1]

    def _reckoned(self) -> tuple[Reckoning, Bench]:
        snapshot = self.snapshot()

        def make(last: tuple[Reckoning, Bench] | None) -> tuple[Reckoning, Bench]:
            from gudgeon.reckoning import reckon_with_bench
            from gudgeon.systems import ALL

            return reckon_with_bench(snapshot, ALL, previous=last[0] if last else None)

        return cast("tuple[Reckoning, Bench]", self.answers.ask("reckoning", reckoned_from(snapshot), make))

    def kept(self, what: object, of: tuple[object, ...], make: Callable[[], T]) -> T:
        """Something made quickly ``of`` parts of a snapshot or of a reckoning, kept until one of them is another."""
        held = self._kept.get(what)
        if held is not None and len(held[0]) == len(of) and all(old is new for old, new in zip(held[0], of, strict=True)):
            return cast(T, held[1])
        value = make()
        self._kept[what] = (of, value)
        return value

    def write(
        self,
        drafts: Sequence[Draft],
        *,
        person: str,
        seen: str | None = None,
        touching: Callable[[Entry], bool] | None = None,
    ) -> list[Entry]:
        """Append to the history under a person's name. ``seen`` is the head that the person's page was made from: when an
        entry ``touching`` the same thing came in between, jobfile's ``Moved`` is raised with it and nothing is written."""
        if not person.strip():
            raise Refused("Nobody was named for this change; every change names a person: give your name first.")
        with self._lock:
            return self.file.append(drafts, person=person.strip(), after=seen, touching=touching)

    def close(self) -> None:
        """Close the file."""
        self.file.close()

    def __enter__(self) -> Job:
        return self

    def __exit__(self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None) -> None:
        self.close()


def reckoned_from(snapshot: Snapshot) -> tuple[object, ...]:
    """What a reckoning is made from: everything that stands but pictures and what is drawn on them."""
    return (
        snapshot.outline, snapshot.readings, snapshot.refused, snapshot.parts, snapshot.verdicts, snapshot.orders,
        snapshot.prices, snapshot.aims, snapshot.steps, snapshot.done,
    )  # fmt: skip


def start(folder: Path | str, *, person: str, outline: Outline | None = None) -> Job:
    """Start a job in a new folder. Without an outline its name is the folder's and everything else is unknown."""
    folder = Path(folder)
    outline = outline or Outline(name=folder.resolve().name)
    if not person.strip():
        raise Refused("Nobody was named for this change; every change names a person: give your name first.")
    job = Job(JobFile.create(folder))
    job.write([Draft(kind="job", body={"format": 1, "outline": to_plain(outline)})], person=person)
    return job


def open_job(folder: Path | str) -> Job:
    """Open a job. Raises jobfile's faults with a sentence when the folder is none."""
    return Job(JobFile.open(Path(folder)))


def change_outline(job: Job, outline: Outline, *, person: str) -> None:
    """Put a new outline in the place of the old one, which is kept in the history."""
    job.write([Draft(kind="outline", body={"outline": to_plain(outline)})], person=person)


def now() -> str:
    """This moment, as entries carry it."""
    return datetime.now(UTC).isoformat(timespec="seconds")


def plain_body(value: object) -> dict[str, Any]:
    """The body of an entry that holds one frozen value."""
    body = to_plain(value)
    assert isinstance(body, dict)
    return body
