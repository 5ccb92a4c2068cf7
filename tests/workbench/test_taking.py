"""Taking readings in: all or nothing, once only, and nothing typed is lost."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

import gudgeon
from gudgeon.workbench.job import Job

HEADER = "row,part,item,feature,station,direction_deg,reading,unit,base\n"
GOOD = HEADER + (
    "1,cylinder,cyl 1,bore diameter,top,90,5 1/8,in,\n"
    "2,cylinder,cyl 1,bore diameter,top,0,+3,in,5 1/8\n"
    "3,cylinder,cyl 1,bore diameter,bottom,90,130.25 mm,in,\n"
    "4,ring,cyl 1 top ring,end gap in unworn belt,,,go .003 no-go .004,in,\n"
    "5,cylinder,cyl 1,bore diameter,above,0,not reached,in,\n"
    "6,cylinder,cyl 1,head clearance,,,1.5 thou,in,\n"
)


@pytest.fixture
def job(tmp_path: Path) -> Iterator[Job]:
    with gudgeon.start(tmp_path / "engine", person="Ada") as started:
        yield started


def test_readings_as_people_write_them(job: Job) -> None:
    assert gudgeon.take_text(job, GOOD.encode(), source="a.csv", person="Ada").taken == 6
    by_row = {reading.row: reading for reading in job.snapshot().readings}
    # 1 in = 25.4 mm exactly (international yard and pound agreement, 1959)
    assert by_row[1].understood.value == pytest.approx(0.130175, abs=1e-12)
    assert by_row[2].understood.value == pytest.approx(0.130175 + 0.0000762, abs=1e-12)
    assert by_row[3].understood.value == pytest.approx(0.13025, abs=1e-12)
    low, high = by_row[4].understood.low, by_row[4].understood.high
    assert (low, high) == (pytest.approx(0.0000762), pytest.approx(0.0001016))
    assert by_row[5].understood.kind == "not taken"
    assert by_row[6].understood.value == pytest.approx(0.0000381)
    assert by_row[2].typed == "+3"
    assert by_row[2].base == "5 1/8"


@pytest.mark.parametrize(
    ("broken", "says"),
    [
        ("1,cylinder,cyl 1,bore diameter,top,90,5.1.8,in,\n", "line 2: “5.1.8”"),
        ("1,cylinder,cyl 1,bore diameter,top,90,+3,in,\n", "base"),
        ("1,cylinder,,bore diameter,top,90,5.128,in,\n", "the column item is empty"),
        ("1,cylinder,cyl 1,bore diameter,top,sideways,5.128,in,\n", "direction_deg"),
        ("1,cylinder,cyl 1,bore diameter,top,90,5.128,cubits,\n", "cubits"),
        ("1,cylinder,cyl 1,bore diameter,top,90,5.128,in,,,,spare\n", "put texts with commas in quotes"),
    ],
)
def test_a_line_that_cannot_be_understood_refuses_the_file(job: Job, broken: str, says: str) -> None:
    with pytest.raises(gudgeon.NoneTaken) as fault:
        gudgeon.take_text(job, (HEADER + broken + GOOD.splitlines()[1] + "\n").encode(), source="a.csv", person="Ada")
    assert says in str(fault.value)
    assert job.snapshot().readings == ()
    assert job.snapshot().refused == ()


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "are missing"),
        (b"part,item,redaing\nx,y,1\n", "did you mean “reading”"),
        (b"part,item,reading,reading\nx,y,1,1\n", "stands there twice"),
        (b"part,item,reading\n", "no readings"),
        (b"part,item,reading\nx,y,\xff\xfe\n", "line 2: the file is not UTF-8"),
        (b'part,item,reading\n"x,y,1\n', "line 2"),
        (b"PK\x03\x04\x00\x00", "no CSV"),
    ],
)
def test_a_broken_file_is_refused_in_one_sentence(job: Job, data: bytes, says: str) -> None:
    with pytest.raises(gudgeon.Refused) as fault:
        gudgeon.take_text(job, data, source="a.csv", person="Ada")
    assert says in str(fault.value)
    assert "\n" not in str(fault.value)
    assert len(job.file.entries()) == 1


def test_good_lines_only_and_the_others_mended_later(job: Job) -> None:
    broken = GOOD.replace("5 1/8,in,\n", "5 1/,in,\n", 1)
    taken = gudgeon.take_text(job, broken.encode(), source="a.csv", person="Ada", good_only=True)
    assert (taken.taken, len(taken.refused)) == (5, 1)
    kept = job.snapshot().refused[0]
    assert kept.row == 1
    assert "5 1/" in kept.line
    again = gudgeon.take_text(job, GOOD.encode(), source="a.csv", person="Ada")
    assert (again.taken, again.already, again.mended) == (1, 5, 1)
    assert job.snapshot().refused == ()
    assert len(job.snapshot().readings) == 6


def test_the_same_file_twice_adds_nothing(job: Job) -> None:
    gudgeon.take_text(job, GOOD.encode(), source="a.csv", person="Ada")
    before = len(job.file.entries())
    assert gudgeon.take_text(job, GOOD.encode(), source="a.csv", person="Ada").already == 6
    assert len(job.file.entries()) == before


def test_semicolons_and_a_byte_order_mark(job: Job) -> None:
    data = "\ufeffpart;item;feature;reading;unit\ncylinder;cyl 1;bore diameter;130,25;mm\n"
    assert gudgeon.take_text(job, data.encode(), source="a.csv", person="Ada").taken == 1
    assert job.snapshot().readings[0].understood.value == pytest.approx(0.13025)


def test_a_ticket_is_delivered_once(job: Job) -> None:
    columns = {"part": "cylinder", "item": "cyl 1", "feature": "bore diameter", "reading": "5.128", "unit": "in"}
    first = gudgeon.put_reading(job, columns, person="Ada", ticket="phone-1")
    second = gudgeon.put_reading(job, columns, person="Ada", ticket="phone-1")
    assert first.id == second.id
    assert len(job.snapshot().readings) == 1


def test_a_correction_keeps_the_old_reading(job: Job) -> None:
    columns = {"part": "cylinder", "item": "cyl 1", "feature": "bore diameter", "reading": "5.218", "unit": "in"}
    old = gudgeon.put_reading(job, columns, person="Ada")
    new = gudgeon.correct(job, old.id, "5.128", person="Ben")
    snapshot = job.snapshot()
    assert [reading.id for reading in snapshot.readings] == [new.id]
    assert snapshot.superseded == (old,)
    assert new.person == "Ben"
    with pytest.raises(gudgeon.Refused, match="no longer the newest"):
        gudgeon.correct(job, old.id, "5.127", person="Ada")


def test_two_people_at_one_spot_are_told_of_each_other(job: Job) -> None:
    columns = {"part": "cylinder", "item": "cyl 1", "feature": "bore diameter", "reading": "5.128", "unit": "in"}
    seen = job.file.head()
    gudgeon.put_reading(job, columns, person="Ada", seen=seen)
    with pytest.raises(Exception, match="Ada") as fault:
        gudgeon.put_reading(job, {**columns, "reading": "5.131"}, person="Ben", seen=seen)
    assert "5.128" in str(fault.value.entries[0].body)  # type: ignore[attr-defined]
    assert len(job.snapshot().readings) == 1


def test_a_change_without_a_name_is_refused(job: Job) -> None:
    with pytest.raises(gudgeon.Refused, match="every change names a person"):
        gudgeon.take_text(job, GOOD.encode(), source="a.csv", person=" ")
