from __future__ import annotations

import hashlib
import json
import sqlite3
import threading
from pathlib import Path

import pytest

from gudgeon.engine.history import first_fault
from gudgeon.jobfile import Draft, JobFault, JobFile, Moved, NoPicture, ReadOnly
from tests.jobfile.conftest import JPEG, reading


def raw(job: JobFile) -> sqlite3.Connection:
    return sqlite3.connect(job.folder / "job.sqlite", isolation_level=None)


def test_comes_back_as_it_was_written(job: JobFile) -> None:
    written = job.append([reading("5 1/8"), reading("µ „−.003“ ½")], person="Owner")
    job.close()
    with JobFile.open(job.folder) as again:
        assert again.entries(after=1) == written
        assert again.head() == written[-1].digest
        assert [entry.seq for entry in again.entries()] == [1, 2, 3]


def test_empty_job_has_no_head(tmp_path: Path) -> None:
    with JobFile.create(tmp_path / "job") as job:
        assert job.entries() == []
        assert job.head() == ""


def test_layout_is_the_one_the_readme_tells(measured: JobFile) -> None:
    """The README promises a reader with nothing but SQLite, JSON and SHA-256: follow it to the letter."""
    readme = (measured.folder / "README.txt").read_text()
    assert "one table, entries" in readme
    columns = "seq, id, kind, body, person, at, previous, digest"
    previous = "0" * 64
    for row in raw(measured).execute(f"SELECT {columns} FROM entries ORDER BY seq"):
        entry = dict(zip(columns.split(", "), row, strict=True))
        digest = entry.pop("digest")
        entry["body"] = json.loads(entry["body"])
        assert entry["previous"] == previous
        # All keys here are ASCII, for which json's own sorting is that of RFC 8785.
        text = json.dumps(entry, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
        assert hashlib.sha256(text.encode()).hexdigest() == digest
        previous = digest
    picture = measured.folder / "pictures" / hashlib.sha256(JPEG).hexdigest()[:2] / (hashlib.sha256(JPEG).hexdigest() + ".jpg")
    assert picture.read_bytes() == JPEG


def test_database_is_set_up_for_durability(job: JobFile) -> None:
    connection = raw(job)
    assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    assert connection.execute("PRAGMA application_id").fetchone()[0] == int.from_bytes(b"GUDG", "big")
    assert connection.execute("PRAGMA user_version").fetchone()[0] == 1
    with job.database.writing() as writer:
        assert writer.execute("PRAGMA synchronous").fetchone() == (2,)  # 2 is FULL, sqlite.org/pragma.html


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE entries SET body = '{}' WHERE seq = 2",
        "UPDATE entries SET at = '1912-01-01' WHERE seq = 2",
        "DELETE FROM entries WHERE seq = 7",
        "INSERT OR REPLACE INTO entries SELECT * FROM entries WHERE seq = 2",
        "INSERT INTO entries SELECT 9, 'new', kind, body, person, at, digest, 'd' FROM entries WHERE seq = 7",
        "INSERT INTO entries SELECT 8, 'new', kind, body, person, at, previous, 'd' FROM entries WHERE seq = 7",
        "INSERT OR REPLACE INTO entries SELECT 8, 'ticket-0', kind, body, person, at, digest, 'd' FROM entries WHERE seq = 7",
    ],
)
def test_database_itself_refuses_to_change_the_history(measured: JobFile, statement: str) -> None:
    with pytest.raises(sqlite3.IntegrityError, match=r"An entry (is never|can only)"):
        raw(measured).execute(statement)
    assert len(measured.entries()) == 7


def test_readers_cannot_write(job: JobFile) -> None:
    with pytest.raises(ReadOnly), job.database.reading() as reader:
        reader.execute("INSERT INTO entries VALUES (2, 'x', 'x', '{}', 'x', 'x', 'x', 'x')")


# -- all or nothing, once -------------------------------------------------------------------------------------------------


def test_all_or_nothing(job: JobFile) -> None:
    with pytest.raises(ValueError, match="without a kind"):
        job.append([reading("5.125"), Draft("", {})], person="Owner")
    assert len(job.entries()) == 1
    job.append([reading("5.126")], person="Owner")
    assert first_fault(job.entries()) is None


def test_float_is_refused(job: JobFile) -> None:
    with pytest.raises(TypeError, match=r"5\.125 cannot be sealed: write it as text"):
        job.append([Draft("reading", {"reading": 5.125})], person="Owner")


def test_nobody_writes_without_a_name(job: JobFile) -> None:
    with pytest.raises(ValueError, match="give the name of the person"):
        job.append([reading("5.125")], person=" ")


def test_ticket_sent_twice_is_delivered_once(job: JobFile) -> None:
    first = job.append([reading("5.125", "phone-1")], person="Owner")
    again = job.append([reading("5.125", "phone-1"), reading("5.126", "phone-2")], person="Owner")
    assert again[0] == first[0]
    assert [entry.id for entry in job.entries(after=1)] == ["phone-1", "phone-2"]


def test_same_ticket_twice_in_one_go(job: JobFile) -> None:
    one, two = job.append([reading("5.125", "phone-1"), reading("5.125", "phone-1")], person="Owner")
    assert one == two
    assert len(job.entries()) == 2


def test_time_is_now_in_utc(job: JobFile) -> None:
    from datetime import UTC, datetime, timedelta

    at = datetime.fromisoformat(job.entries()[0].at)
    assert at.utcoffset() == timedelta(0)
    assert abs(datetime.now(UTC) - at) < timedelta(minutes=1)


# -- two people at once ---------------------------------------------------------------------------------------------------


def test_moved_shows_what_the_other_wrote(job: JobFile) -> None:
    seen = job.head()
    other = job.append([reading("5.131")], person="Mate")
    with pytest.raises(Moved, match="Mate wrote about the same thing") as moved:
        job.append([reading("5.125")], person="Owner", after=seen)
    assert list(moved.value.entries) == other
    assert len(job.entries()) == 2


def test_other_matters_do_not_hinder(job: JobFile) -> None:
    seen = job.head()
    job.append([Draft("aims", {"run_by": "2027-05-01"})], person="Mate")
    job.append([reading("5.125")], person="Owner", after=seen, touching=lambda entry: entry.kind == "reading")
    with pytest.raises(Moved) as moved:
        job.append([Draft("aims", {})], person="Owner", after=seen, touching=lambda entry: entry.kind == "aims")
    assert [entry.kind for entry in moved.value.entries] == ["aims"]


def test_sending_again_is_no_conflict_with_oneself(job: JobFile) -> None:
    seen = job.head()
    first = job.append([reading("5.125", "phone-1")], person="Owner", after=seen)
    assert job.append([reading("5.125", "phone-1")], person="Owner", after=seen) == first


def test_first_entry_of_all_may_be_guarded_too(tmp_path: Path) -> None:
    with JobFile.create(tmp_path / "job") as job:
        job.append([reading("5.125")], person="Owner", after="")
        with pytest.raises(Moved):
            job.append([reading("5.126")], person="Mate", after="")


def test_head_of_another_job_is_refused(job: JobFile) -> None:
    with pytest.raises(ValueError, match="another job or copy"):
        job.append([reading("5.125")], person="Owner", after="ab" * 32)


def test_many_threads_write_one_chain(job: JobFile) -> None:
    def work(name: str) -> None:
        for number in range(20):
            job.append([reading(f"5.{number:03}")], person=name)
            job.entries(after=number)

    threads = [threading.Thread(target=work, args=(f"person {n}",)) for n in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    entries = job.entries()
    assert len(entries) == 81
    assert first_fault(entries) is None


def test_two_programs_write_one_chain(job: JobFile) -> None:
    with JobFile.open(job.folder) as other:
        for number in range(5):
            job.append([reading(f"5.{number:03}")], person="Owner")
            other.append([reading(f"6.{number:03}")], person="Mate")
        assert job.entries() == other.entries()
        assert first_fault(job.entries()) is None


# -- pictures and cache ---------------------------------------------------------------------------------------------------


def test_picture_comes_back_and_is_stored_once(job: JobFile) -> None:
    digest = job.add_picture(JPEG)
    assert digest == hashlib.sha256(JPEG).hexdigest()
    assert job.add_picture(JPEG) == digest
    assert job.picture(digest) == JPEG
    assert job.has_picture(digest)
    assert [path.name for path in job.pictures()] == [digest + ".jpg"]


def test_adding_a_picture_again_mends_its_file(job: JobFile) -> None:
    digest = job.add_picture(JPEG)
    job.picture_path(digest).write_bytes(b"spoilt")
    job.add_picture(JPEG)
    assert job.picture(digest) == JPEG


@pytest.mark.parametrize("digest", ["", "../../job.sqlite", "AB" * 32, "ab"])
def test_picture_names_do_not_wander(job: JobFile, digest: str) -> None:
    assert not job.has_picture(digest)
    with pytest.raises(NoPicture, match="64 of the characters"):
        job.picture(digest)


def test_missing_picture_is_said(job: JobFile) -> None:
    with pytest.raises(NoPicture, match="missing from the folder pictures"):
        job.picture("ab" * 32)


def test_empty_picture_is_refused(job: JobFile) -> None:
    with pytest.raises(ValueError, match="no bytes"):
        job.add_picture(b"")


def test_cache_keeps_and_forgets(job: JobFile) -> None:
    assert job.cached("reckoning.json") is None
    job.cache("reckoning.json", b"1")
    job.cache("reckoning.json", b"2")
    job.cache("thumb/320/ab.jpg", b"3")
    assert job.cached("reckoning.json") == b"2"
    assert job.cached("thumb/320/ab.jpg") == b"3"
    assert not list(job.folder.rglob("*.part"))


@pytest.mark.parametrize("name", ["", "../job.sqlite", "/etc/x", "a/../b", ".hidden", "a//b"])
def test_cache_names_do_not_wander(job: JobFile, name: str) -> None:
    with pytest.raises(ValueError, match="cannot name something in the cache"):
        job.cache(name, b"")


# -- copies ---------------------------------------------------------------------------------------------------------------


def test_copy_while_in_use_is_whole(measured: JobFile, tmp_path: Path) -> None:
    measured.cache("reckoning.json", b"x")
    stop = threading.Event()

    def write() -> None:
        while not stop.is_set():
            measured.append([reading("5.130")], person="Owner")

    writer = threading.Thread(target=write)
    writer.start()
    try:
        measured.copy_to(tmp_path / "copy")
    finally:
        stop.set()
        writer.join()
    with JobFile.open(tmp_path / "copy") as copy:
        copied = copy.entries()
        assert len(copied) >= 7
        assert copied == measured.entries()[: len(copied)]
        assert copy.picture(hashlib.sha256(JPEG).hexdigest()) == JPEG
        assert copy.cached("reckoning.json") is None
        assert (copy.folder / "README.txt").is_file()
        copy.append([reading("5.140")], person="Mate")


def test_copy_never_writes_over_anything(measured: JobFile, tmp_path: Path) -> None:
    from gudgeon.jobfile import JobExists

    (tmp_path / "copy").mkdir()
    (tmp_path / "copy" / "letter.txt").write_text("keep me")
    with pytest.raises(JobExists, match="not empty; give a new name"):
        measured.copy_to(tmp_path / "copy")
    assert [path.name for path in (tmp_path / "copy").iterdir()] == ["letter.txt"]


def test_closed_job_says_so(job: JobFile) -> None:
    job.close()
    with pytest.raises(JobFault, match="was closed; open it again"):
        job.append([reading("5.125")], person="Owner")
    with pytest.raises(JobFault, match="was closed; open it again"):
        job.entries()
