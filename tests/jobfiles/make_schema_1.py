"""How ``schema-1/job.sqlite`` was made, with the program that released schema 1. A released one is never remade."""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path

from gudgeon.jobfile import Draft, JobFile

OUTLINE = {"is": "Outline", "name": "The engine of Saltmarsh Mill", "cylinders": 2, "bore": "0.130175", "bore_typed": "5 1/8"}
ROW = {"part": "cylinder", "item": "cyl 1", "feature": "bore diameter", "station": "1", "direction_deg": "90", "unit": "in"}
AT = "2026-11-25T10:00:00Z"


def make(folder: Path) -> None:
    """A small job with a reading, its correction and a refused line."""
    with JobFile.create(folder) as job:
        job.append([Draft("job", {"outline": OUTLINE, "format": 1}, "begin")], person="Owner", at=AT)
        job.append([Draft("reading", {**ROW, "reading": "5.128"}, "first")], person="Owner", at=AT)
        job.append([Draft("reading", {**ROW, "reading": "5.138", "supersedes": "first"}, "second")], person="Owner", at=AT)
        refused = {"row": 3, "line": "cylinder,cyl 1,bore,5.1.2,in", "reason": "“5.1.2” is no size", "source": "bench.csv"}
        job.append([Draft("refused", refused, "third")], person="Owner", at=AT)


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as beside:
        make(Path(beside) / "job")
        target = Path(sys.argv[1])
        target.mkdir(parents=True)
        shutil.copyfile(Path(beside) / "job" / "job.sqlite", target / "job.sqlite")
