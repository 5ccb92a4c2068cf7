"""Kill the program, without warning, in the midst of writing: everything it acknowledged must be there.

A killed process shows that nothing acknowledged waits in the program's own memory. That the system's memory is forced to
disk as well rests on fsync, which is watched here by counting the calls the operating system receives.
"""

from __future__ import annotations

import hashlib
import os
import signal
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest

from gudgeon.engine.history import first_fault
from gudgeon.jobfile import JobFile, check

READINGS = """
    import sys
    from gudgeon.jobfile import Draft, JobFile

    job = JobFile.open(sys.argv[1])
    number = 0
    while True:
        drafts = [Draft("reading", {"reading": str(number), "note": "x" * 500}, f"r{number}-{n}") for n in range(3)]
        job.append(drafts, person="Owner")
        print(number, flush=True)
        number += 1
"""

PICTURES = """
    import sys
    from gudgeon.jobfile import JobFile

    job = JobFile.open(sys.argv[1])
    number = 0
    while True:
        print(job.add_picture(number.to_bytes(4, "big") * 300_000), flush=True)
        number += 1
"""


def killed_after(script: str, folder: Path, lines: int) -> list[str]:
    """What the script had acknowledged when it was killed."""
    with subprocess.Popen(
        [sys.executable, "-c", textwrap.dedent(script), str(folder)], stdout=subprocess.PIPE, text=True
    ) as process:
        assert process.stdout is not None
        heard = [process.stdout.readline() for _ in range(lines)]
        process.send_signal(signal.SIGKILL)
        heard += process.stdout.readlines()
    assert process.returncode == -signal.SIGKILL
    return [line.strip() for line in heard if line.endswith("\n")]


@pytest.mark.parametrize("lines", [1, 7, 40])
def test_acknowledged_readings_survive(tmp_path: Path, lines: int) -> None:
    JobFile.create(tmp_path / "job").close()
    acknowledged = killed_after(READINGS, tmp_path / "job", lines)
    with JobFile.open(tmp_path / "job") as job:
        ids = [entry.id for entry in job.entries()]
        assert len(acknowledged) >= lines
        assert ids[: 3 * len(acknowledged)] == [f"r{number}-{n}" for number in map(int, acknowledged) for n in range(3)]
        assert len(ids) % 3 == 0, "half of one append was kept"
        assert first_fault(job.entries()) is None


def test_acknowledged_pictures_survive_whole(tmp_path: Path) -> None:
    JobFile.create(tmp_path / "job").close()
    acknowledged = killed_after(PICTURES, tmp_path / "job", 12)
    with JobFile.open(tmp_path / "job") as job:
        for digest in acknowledged:
            assert hashlib.sha256(job.picture(digest)).hexdigest() == digest
        assert check(job) == []


def test_picture_is_forced_to_disk_before_it_gets_its_name(job: JobFile, monkeypatch: pytest.MonkeyPatch) -> None:
    happened: list[str] = []
    fsync, replace = os.fsync, Path.replace
    monkeypatch.setattr(os, "fsync", lambda handle: (happened.append("forced"), fsync(handle))[1])
    monkeypatch.setattr(Path, "replace", lambda old, new: (happened.append("named"), replace(old, new))[1])
    job.add_picture(b"some bytes")
    assert happened[-3:] == ["forced", "named", "forced"]
