"""Parts noted and put back, pictures and what is drawn on them."""

from __future__ import annotations

import io
import threading
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PIL import Image

import gudgeon
from gudgeon.engine.fold import fold
from gudgeon.engine.part import PartNote
from gudgeon.engine.photo import PhotoMark
from gudgeon.engine.snapshot import PictureNote
from gudgeon.jobfile import Moved
from gudgeon.workbench.faults import Refused
from gudgeon.workbench.job import Job
from gudgeon.workbench.standing import Answers, BeingReckoned, given_an_old_one, in_a_hurry

PISTON = PartNote(id="", part="piston", item="piston 2", condition="scored")


@pytest.fixture
def job(tmp_path: Path) -> Iterator[Job]:
    with gudgeon.start(tmp_path / "engine", person="Ada") as started:
        yield started


def photo(shade: int) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (40, 30), (shade, 90, 90)).save(out, "JPEG")
    return out.getvalue()


def test_parts_are_tagged_one_after_another_and_no_number_hangs_twice(job: Job) -> None:
    first = gudgeon.note_part(job, PISTON, person="Ada")
    ring = gudgeon.note_part(job, replace(PISTON, part="ring", item="cyl 2 top ring", tag=40), person="Ada")
    last = gudgeon.note_part(job, replace(PISTON, item="piston 3"), person="Ada")
    assert (first.tag, ring.tag, last.tag) == (1, 40, 41)
    with pytest.raises(Refused, match="Tag 40 hangs on cyl 2 top ring already"):
        gudgeon.note_part(job, replace(PISTON, item="piston 1", tag=40), person="Ada")


def test_a_note_sent_twice_with_one_ticket_is_taken_once(job: Job) -> None:
    for _ in range(2):
        gudgeon.note_part(job, PISTON, person="Ada", ticket="p1")
    assert len(job.snapshot().parts) == 1


def test_a_changed_note_keeps_tag_address_and_place_in_the_order_of_taking_off(job: Job) -> None:
    first = gudgeon.note_part(job, PISTON, person="Ada")
    gudgeon.note_part(job, replace(PISTON, item="piston 3"), person="Ada")
    changed = gudgeon.note_part(job, replace(first, condition="cracked", supersedes=first.id), person="Ben")
    assert (changed.line, changed.off, changed.tag, changed.person) == (first.line, first.off, first.tag, "Ben")
    back = gudgeon.put_back(job, first.id, on="2027-03-01", person="Ben")
    assert (back.back, back.condition, back.off) == ("2027-03-01", "cracked", first.off)
    assert len(job.snapshot().parts) == 2


def test_of_two_people_at_one_part_the_second_is_shown_the_first(job: Job) -> None:
    first = gudgeon.note_part(job, PISTON, person="Ada")
    seen = job.file.head()
    gudgeon.note_part(job, replace(first, condition="cracked", supersedes=first.id), person="Ben", seen=seen)
    with pytest.raises(Moved) as moved:
        gudgeon.note_part(job, replace(first, condition="clean", supersedes=first.id), person="Ada", seen=seen)
    assert moved.value.entries[-1].body["condition"] == "cracked"
    assert job.snapshot().part_noted(first.id).condition == "cracked"


def test_a_picture_is_kept_as_it_came_and_drawn_on_beside_it(job: Job) -> None:
    data = photo(10)
    kept = gudgeon.add_picture(job, data, PictureNote(digest="", name="a.jpg", item="piston 2"), person="Ada")
    marks = (PhotoMark(kind="arrow", x=0.1, y=0.2, to_x=0.5, to_y=0.25, text="crack <b>"),)
    gudgeon.mark_picture(job, kept.digest, marks, person="Ada")
    assert job.file.picture(kept.digest) == data
    assert fold(job.file.entries()).marks[kept.digest].marks == marks
    assert (kept.width, kept.height) == (40, 30)


def test_before_and_after_are_two_pictures(job: Job) -> None:
    before, after = (
        gudgeon.add_picture(job, photo(shade), PictureNote(digest="", name="a.jpg"), person="Ada") for shade in (10, 200)
    )
    gudgeon.note_picture(job, replace(after, before=before.digest), person="Ada")
    assert job.snapshot().picture_index[after.digest].before == before.digest
    with pytest.raises(Refused):
        gudgeon.note_picture(job, replace(after, before=after.digest), person="Ada")


@pytest.mark.parametrize("place", [{"x": -0.1, "y": 0.0}, {"x": 0.0, "y": 1.2}, {"x": float("nan"), "y": 0.0}])
def test_a_mark_off_the_photo_is_refused(place: dict[str, float]) -> None:
    with pytest.raises(ValueError, match="off its photo"):
        PhotoMark(kind="words", text="x", **place)


def test_a_snapshot_fed_bit_by_bit_is_the_one_folded_whole(job: Job) -> None:
    for text in ("5.128", "5.129", "5.130", "not reached"):
        gudgeon.put_reading(
            job,
            {"part": "cylinder", "item": "cyl 1", "feature": "bore diameter", "station": "1", "reading": text, "unit": "in"},
            person="Ada",
        )
        job.snapshot()
    gudgeon.correct(job, job.snapshot().readings[1].id, "5.1295", person="Ada")
    kept, whole = job.snapshot(), fold(job.file.entries())
    assert kept == whole
    by_hand: dict[object, list[object]] = {}
    for reading in kept.readings:
        by_hand.setdefault(reading.key, []).append(reading)
    assert {key: list(group) for key, group in kept.by_feature.items()} == by_hand
    assert dict(kept.reading_index) == {reading.id: reading for reading in kept.readings}


def test_a_picture_leaves_the_readings_as_they_are(job: Job) -> None:
    before = job.snapshot()
    gudgeon.add_picture(job, photo(10), PictureNote(digest="", name="a.jpg"), person="Ada")
    after = job.snapshot()
    assert after.readings is before.readings
    assert after.pictures != before.pictures


def test_whoever_is_in_a_hurry_gets_the_last_answer_and_is_told() -> None:
    answers, gate, first, second = Answers(), threading.Event(), object(), object()

    def slow(last: object) -> object:
        gate.wait(10)
        return ("new", last)

    with in_a_hurry(0.0), pytest.raises(BeingReckoned):
        answers.ask("a", (first,), slow)
    gate.set()
    assert answers.ask("a", (first,), slow) == ("new", None)
    gate.clear()
    with in_a_hurry(0.01):
        assert answers.ask("a", (second,), slow) == ("new", None)
        assert given_an_old_one()
    gate.set()
    assert answers.ask("a", (second,), slow) == ("new", ("new", None))
