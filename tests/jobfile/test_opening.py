from __future__ import annotations

import shutil
import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from pathlib import Path

import pytest

from gudgeon.jobfile import Damaged, Draft, JobExists, JobFile, Locked, NewerJob, NoJob, ReadOnly, check, jobs_in
from tests.jobfile.conftest import reading

Nobody = Callable[[], AbstractContextManager[None]]


@pytest.fixture
def elsewhere() -> Iterator[Path]:
    """A folder that every user of the machine can look into (pytest's own are private)."""
    folder = Path(tempfile.mkdtemp())
    folder.chmod(0o755)
    yield folder
    for path in [folder, *folder.rglob("*")]:
        path.chmod(0o755)
    shutil.rmtree(folder)


def test_missing_folder(tmp_path: Path) -> None:
    with pytest.raises(NoJob, match=r"There is no folder .*nowhere; give the folder of a job"):
        JobFile.open(tmp_path / "nowhere")


def test_folder_without_a_job(tmp_path: Path) -> None:
    with pytest.raises(NoJob, match=r"is not a job: there is no job\.sqlite in it"):
        JobFile.open(tmp_path)


def test_file_that_is_no_database(tmp_path: Path) -> None:
    (tmp_path / "job.sqlite").write_text("Dear Sir, with reference to yours of the 3rd inst. " * 40)
    with pytest.raises(NoJob, match=r"is not a job: its job\.sqlite is not an SQLite database"):
        JobFile.open(tmp_path)


def test_database_of_another_program(tmp_path: Path) -> None:
    other = sqlite3.connect(tmp_path / "job.sqlite")
    other.execute("CREATE TABLE entries (seq)")
    other.close()
    before = (tmp_path / "job.sqlite").read_bytes()
    with pytest.raises(NoJob, match="was written by another program"):
        JobFile.open(tmp_path)
    assert (tmp_path / "job.sqlite").read_bytes() == before


def test_newer_schema_is_left_untouched(job: JobFile) -> None:
    job.close()
    raw = sqlite3.connect(job.folder / "job.sqlite")
    raw.execute("PRAGMA user_version = 99")
    raw.close()
    with pytest.raises(NewerJob, match=r"newer gudgeon \(schema 99; this one knows up to 1\).*has not been touched"):
        JobFile.open(job.folder)


def test_locked_by_another_program(job: JobFile) -> None:
    other = sqlite3.connect(job.folder / "job.sqlite", isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    with pytest.raises(Locked, match="Another program is writing"):
        JobFile.open(job.folder, timeout=0.05)
    with JobFile.open(job.folder, timeout=0.05, read_only=True) as looking:
        assert len(looking.entries()) == 1
    other.execute("ROLLBACK")
    JobFile.open(job.folder, timeout=0.05).close()


def test_disk_that_cannot_be_written(elsewhere: Path, nobody: Nobody) -> None:
    with JobFile.create(elsewhere / "job") as job:
        job.append([Draft("job", {"outline": {"name": "x"}})], person="Owner")
    for path in [*job.folder.rglob("*"), job.folder]:
        path.chmod(0o555 if path.is_dir() else 0o444)
    with nobody():
        with pytest.raises(ReadOnly, match="copy the job to a disk that can be written, or open it to look"):
            JobFile.open(job.folder)
        with JobFile.open(job.folder, read_only=True) as looking:
            assert [entry.kind for entry in looking.entries()] == ["job"]
            looking.cache("reckoning.json", b"not kept, and no fault either")
            assert looking.cached("reckoning.json") is None
            with pytest.raises(ReadOnly, match="opened only to look"):
                looking.append([reading("5.125")], person="Owner")
            with pytest.raises(ReadOnly, match="opened only to look"):
                looking.add_picture(b"x")


def test_looking_leaves_nothing_behind(measured: JobFile) -> None:
    measured.close()
    before = sorted(path.name for path in measured.folder.iterdir())
    with JobFile.open(measured.folder, read_only=True) as looking:
        assert len(looking.entries()) == 7
        with pytest.raises(ReadOnly), looking.database.reading() as reader:
            reader.execute("CREATE TABLE tags (tag)")
    assert sorted(path.name for path in measured.folder.iterdir()) == before


def test_disk_that_cannot_be_written_with_a_log_left_over(elsewhere: Path, measured: JobFile, nobody: Nobody) -> None:
    """A job copied by hand while it was open, burnt on a disc: what stands only in the log counts as well."""
    shutil.copytree(measured.folder, elsewhere / "disc")
    assert (elsewhere / "disc" / "job.sqlite-wal").stat().st_size > 0
    for path in [*(elsewhere / "disc").rglob("*"), elsewhere / "disc"]:
        path.chmod(0o555 if path.is_dir() else 0o444)
    entries = measured.entries()
    with nobody(), JobFile.open(elsewhere / "disc", read_only=True) as looking:
        assert looking.entries() == entries
        assert check(looking, against=entries[-1].digest) == []


def test_database_that_cannot_be_written(elsewhere: Path, nobody: Nobody) -> None:
    JobFile.create(elsewhere / "job").close()
    (elsewhere / "job").chmod(0o777)
    (elsewhere / "job" / "job.sqlite").chmod(0o444)
    with nobody(), pytest.raises(ReadOnly, match="Nothing can be written"):
        JobFile.open(elsewhere / "job")


def test_no_place_for_a_new_job(elsewhere: Path, nobody: Nobody) -> None:
    elsewhere.chmod(0o555)
    with nobody(), pytest.raises(ReadOnly, match="choose another place"):
        JobFile.create(elsewhere / "job")


def test_new_job_never_replaces_anything(job: JobFile) -> None:
    with pytest.raises(JobExists, match="there already and not empty"):
        JobFile.create(job.folder)
    assert len(job.entries()) == 1


def test_new_job_in_an_empty_folder(tmp_path: Path) -> None:
    (tmp_path / "job").mkdir()
    JobFile.create(tmp_path / "job").close()
    assert [path.name for path in tmp_path.iterdir()] == ["job"]


def test_damaged_database_is_said(measured: JobFile) -> None:
    measured.close()
    path = measured.folder / "job.sqlite"
    data = bytearray(path.read_bytes())
    data[4096:] = b"\x55" * (len(data) - 4096)
    path.write_bytes(data)
    with pytest.raises(Damaged, match="take the newest good copy"), JobFile.open(measured.folder) as job:
        job.entries()


# -- the shed -------------------------------------------------------------------------------------------------------------


def test_shed_lists_its_jobs(measured: JobFile) -> None:
    shed = measured.folder.parent
    (shed / "letters").mkdir()
    JobFile.create(shed / "another").close()
    (shed / "spoilt").mkdir()
    (shed / "spoilt" / "job.sqlite").write_bytes(b"not a database " * 100)
    another, old, spoilt = jobs_in(shed)
    assert (another.name, another.entries, another.last_change) == ("another", 0, "")
    assert (old.name, old.entries, old.last_change) == ("The engine of Saltmarsh Mill", 7, measured.entries()[-1].at)
    assert spoilt.name == "spoilt"
    assert "is not a job" in spoilt.fault


def test_shed_shows_the_newest_name(measured: JobFile) -> None:
    measured.append([Draft("outline", {"outline": {"is": "Outline", "name": "Renamed"}})], person="Owner")
    assert [info.name for info in jobs_in(measured.folder.parent)] == ["Renamed"]


def test_no_shed_no_jobs(tmp_path: Path) -> None:
    assert jobs_in(tmp_path / "nowhere") == []
