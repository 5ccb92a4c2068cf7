"""Tampering as somebody with a plain SQLite tool would do it: the guards taken off first, put back afterwards."""

from __future__ import annotations

import hashlib
import json
import sqlite3
from collections.abc import Callable

import pytest

from gudgeon.jobfile import Draft, JobFile, check, standing
from tests.jobfile.conftest import JPEG

Tamper = Callable[[sqlite3.Connection], object]


def tampered(job: JobFile, tamper: Tamper, *, guards_back: bool = True) -> None:
    raw = sqlite3.connect(job.folder / "job.sqlite", isolation_level=None)
    guards = raw.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
    for name, _ in guards:
        raw.execute(f"DROP TRIGGER {name}")
    tamper(raw)
    for _, sql in guards if guards_back else ():
        raw.execute(sql)
    raw.close()


def resealed(raw: sqlite3.Connection, seqs: range) -> None:
    """New digests as the README explains them, with nothing of the program's own."""
    columns = "seq, id, kind, body, person, at, previous"
    for seq in seqs:
        row = raw.execute(f"SELECT {columns} FROM entries WHERE seq = ?", (seq,)).fetchone()
        entry = dict(zip(columns.split(", "), row, strict=True))
        entry["body"] = json.loads(entry["body"])
        before = raw.execute("SELECT digest FROM entries WHERE seq = ?", (seq - 1,)).fetchone()
        entry["previous"] = before[0]
        text = json.dumps(entry, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
        digest = hashlib.sha256(text.encode()).hexdigest()
        raw.execute("UPDATE entries SET previous = ?, digest = ? WHERE seq = ?", (entry["previous"], digest, seq))


def change_reading(raw: sqlite3.Connection) -> None:
    raw.execute("UPDATE entries SET body = replace(body, '5.121', '5.101') WHERE seq = 4")


def test_untouched_job_is_whole_and_says_how_far_that_goes(measured: JobFile) -> None:
    faults = check(measured)
    assert faults == []
    assert standing(faults) == "consistent, not anchored"
    anchor = measured.entries()[4].digest
    faults = check(measured, against=anchor)
    assert faults == []
    assert standing(faults, against=anchor) == "anchored"


def test_changed_reading_is_named(measured: JobFile) -> None:
    tampered(measured, change_reading)
    (fault,) = check(measured)
    assert fault.seq == 4
    assert fault.sentence.startswith("Entry 4 (reading, ")
    assert "altered after it was written" in fault.sentence
    assert standing([fault]) == "faulty"


@pytest.mark.parametrize("column", ["id", "kind", "person", "at"])
def test_every_column_is_covered(measured: JobFile, column: str) -> None:
    tampered(measured, lambda raw: raw.execute(f"UPDATE entries SET {column} = 'other' WHERE seq = 5"))
    assert [fault.seq for fault in check(measured)] == [5]


def test_removed_row_is_named(measured: JobFile) -> None:
    tampered(measured, lambda raw: raw.execute("DELETE FROM entries WHERE seq = 5"))
    (fault,) = check(measured)
    assert fault.seq == 5
    assert fault.sentence == "Entry 5 is missing: entry 6 stands in its place."


def test_removed_row_with_the_rest_moved_up_is_named(measured: JobFile) -> None:
    def tamper(raw: sqlite3.Connection) -> None:
        raw.execute("DELETE FROM entries WHERE seq = 5")
        raw.execute("UPDATE entries SET seq = 5 WHERE seq = 6")
        raw.execute("UPDATE entries SET seq = 6 WHERE seq = 7")

    tampered(measured, tamper)
    assert [fault.seq for fault in check(measured)] == [5]


def test_swapped_pair_is_named(measured: JobFile) -> None:
    def tamper(raw: sqlite3.Connection) -> None:
        raw.execute("UPDATE entries SET seq = -1 WHERE seq = 4")
        raw.execute("UPDATE entries SET seq = 4 WHERE seq = 5")
        raw.execute("UPDATE entries SET seq = 5 WHERE seq = -1")

    tampered(measured, tamper)
    assert [fault.seq for fault in check(measured)] == [4]


def test_entry_resealed_alone_is_named(measured: JobFile) -> None:
    """The altered entry, not the honest one after it that no longer fits."""

    def tamper(raw: sqlite3.Connection) -> None:
        change_reading(raw)
        resealed(raw, range(4, 5))

    tampered(measured, tamper)
    (fault,) = check(measured)
    assert fault.seq == 4
    assert "sealed anew" in fault.sentence


def test_chain_edited_in_part_is_named_where_the_rewriting_ends(measured: JobFile) -> None:
    def tamper(raw: sqlite3.Connection) -> None:
        change_reading(raw)
        resealed(raw, range(4, 6))

    tampered(measured, tamper)
    (fault,) = check(measured)
    assert fault.seq == 5
    assert "Entries before it may have been rewritten with it." in fault.sentence


def test_chain_rewritten_to_its_end_needs_an_anchor(measured: JobFile) -> None:
    sealed_before, sealed_after = measured.entries()[2].digest, measured.entries()[5].digest

    def tamper(raw: sqlite3.Connection) -> None:
        change_reading(raw)
        resealed(raw, range(4, 8))

    tampered(measured, tamper)
    assert check(measured) == []
    assert check(measured, against=sealed_before) == []
    (fault,) = check(measured, against=sealed_after)
    assert "rewritten or cut short" in fault.sentence


def test_tail_cut_off_needs_an_anchor(measured: JobFile) -> None:
    head = measured.head()
    tampered(measured, lambda raw: raw.execute("DELETE FROM entries WHERE seq = 7"))
    assert check(measured) == []
    assert len(check(measured, against=head)) == 1


def test_entry_added_in_the_middle_of_a_body_is_seen(measured: JobFile) -> None:
    """A second value for a key that is there already: JSON readers differ in which of the two they take."""
    tampered(
        measured,
        lambda raw: raw.execute('UPDATE entries SET body = \'{"reading":"5.0",\' || substr(body, 2) WHERE seq = 4'),
    )
    assert [fault.seq for fault in check(measured)] == [4]


@pytest.mark.parametrize("body", ["", "{", "[1.5]", '{"reading":5.125}', '{"reading":NaN}'])
def test_spoilt_body_is_named_and_stops_nothing(measured: JobFile, body: str) -> None:
    tampered(measured, lambda raw: raw.execute("UPDATE entries SET body = ? WHERE seq = 6", (body,)))
    assert [fault.seq for fault in check(measured)] == [6]


def test_changed_picture_names_its_entry(measured: JobFile) -> None:
    path = measured.picture_path(hashlib.sha256(JPEG).hexdigest())
    path.write_bytes(JPEG.replace(b"begun", b"began"))
    (fault,) = check(measured)
    assert fault.seq == 2
    assert fault.sentence == "The picture (plate.jpg) of entry 2 was altered: its bytes are no longer those stored."


def test_missing_picture_names_its_entry(measured: JobFile) -> None:
    measured.picture_path(hashlib.sha256(JPEG).hexdigest()).unlink()
    (fault,) = check(measured)
    assert fault.seq == 2
    assert "is missing" in fault.sentence


def test_picture_of_a_part_note_counts_too(measured: JobFile) -> None:
    measured.append([Draft("part", {"part": "cylinder", "item": "cyl 1", "pictures": ["ab" * 32]})], person="Owner")
    assert [fault.seq for fault in check(measured)] == [8]


def test_guards_taken_off_are_missed(measured: JobFile) -> None:
    tampered(measured, lambda _: None, guards_back=False)
    assert [fault.sentence for fault in check(measured)] == [
        "The guard “entries are never changed” was taken off the database.",
        "The guard “entries are never removed” was taken off the database.",
        "The guard “entries follow one another” was taken off the database.",
    ]


def test_index_that_disagrees_with_its_table_is_found(measured: JobFile) -> None:
    def tamper(raw: sqlite3.Connection) -> None:
        raw.execute("PRAGMA writable_schema = ON")
        raw.execute("UPDATE sqlite_schema SET sql = replace(sql, 'UNIQUE', '') WHERE name = 'entries'")

    tampered(measured, tamper)
    assert check(measured)
