"""How long one acknowledged reading takes against the floor that the disk sets, and how long a large job takes to open.

    python benchmarks/durable_append.py [folder on the disk to be measured]

The floor is a raw ``write`` and ``fdatasync`` of as many bytes as the reading's entry has, appended to a file: the least
that any program can do that wants to survive a pulled plug. The two are measured by turns, so that both see the same disk.
"""

from __future__ import annotations

import os
import shutil
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from gudgeon.engine.fold import Fold
from gudgeon.jobfile import Draft, JobFile

APPENDS = 400
READINGS = 50_000


def row(number: int, *, places: int) -> dict[str, object]:
    """A reading as the CSV brings it; ``places`` decimals decide how many differ from one another."""
    return {
        "row": str(number),
        "part": "cylinder",
        "item": f"cyl {number % 3 + 1}",
        "feature": "bore diameter",
        "station": str(number % 7 + 1),
        "depth": f"{number % 7}.5",
        "direction_deg": str(number % 4 * 45),
        "reading": f"{5.12 + number * 10**-places % 0.02:.{places}f}",
        "unit": "in",
        "instrument": "telescoping gauge",
        "resolution": "0.0005",
        "note": "",
        "source": "bench.csv",
    }


def timed(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def durable(folder: Path) -> None:
    job = JobFile.create(folder / "job")
    floor = os.open(folder / "floor", os.O_CREAT | os.O_WRONLY | os.O_APPEND, 0o600)
    block = b"x" * 700

    def raw() -> None:
        os.write(floor, block)
        os.fdatasync(floor)

    ours, least = [], []
    for number in range(APPENDS):
        draft = Draft("reading", row(number, places=4))
        ours.append(timed(lambda draft=draft: job.append([draft], person="Owner")))  # type: ignore[misc]
        least.append(timed(raw))
    os.close(floor)
    job.close()
    one, bare = statistics.median(ours) * 1e6, statistics.median(least) * 1e6
    print(
        f"one reading, durable      {one:8.0f} us   raw write and fdatasync {bare:6.0f} us   {one / bare:.2f} times the floor"
    )
    one, bare = (statistics.quantiles(times, n=20)[-1] * 1e6 for times in (ours, least))
    print(f"  19 of 20 within         {one:8.0f} us                           {bare:6.0f} us")


def opening(folder: Path, *, places: int, words: str) -> None:
    with JobFile.create(folder / f"large-{places}") as job:
        drafts = [Draft("job", {"format": 1, "outline": {"is": "Outline", "name": "large"}})]
        drafts += [Draft("reading", row(number, places=places)) for number in range(READINGS)]
        writing = timed(lambda: job.append(drafts, person="Owner"))
    with JobFile.open(folder / f"large-{places}", read_only=True) as job:
        start = time.perf_counter()
        entries = job.entries()
        loaded = time.perf_counter()
        fold = Fold().feed(entries)
        folded = time.perf_counter()
        snapshot = fold.snapshot()
        assert len(snapshot.readings) == READINGS
        assert snapshot.by_feature
        done = time.perf_counter()
    print(f"{READINGS} readings, {words}: written in one go {writing:5.2f} s")
    print(
        f"  load {loaded - start:5.2f} s   fold {folded - loaded:5.2f} s   snapshot, grouped {done - folded:5.2f} s"
        f"   in all {done - start:5.2f} s"
    )


if __name__ == "__main__":
    beside = Path(tempfile.mkdtemp(dir=sys.argv[1] if len(sys.argv) > 1 else None))
    try:
        durable(beside)
        opening(beside, places=4, words="200 different sizes")
        opening(beside, places=7, words="every size different")
    finally:
        shutil.rmtree(beside)
