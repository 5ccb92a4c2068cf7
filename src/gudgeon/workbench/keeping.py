"""Keep: parts noted at teardown and put back, pictures and what is drawn on them, and work steps of the owner's own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from gudgeon.engine.history import Entry
from gudgeon.engine.part import PartNote
from gudgeon.engine.photo import LONGEST_TEXT, MOST_MARKS, PhotoMark, PhotoMarks
from gudgeon.engine.snapshot import PictureNote, Snapshot
from gudgeon.engine.step import StepDraft
from gudgeon.jobfile import Draft
from gudgeon.workbench.faults import Refused
from gudgeon.workbench.job import Job, plain_body

LARGEST_PICTURE = 60_000_000
SIZES = {"small": 480, "large": 1600}
HIGHEST_TAG = 99_999


def note_part(job: Job, note: PartNote, *, person: str, ticket: str = "", seen: str | None = None) -> PartNote:
    """Write down a part. A note that names an older one in ``supersedes`` takes its place; one without a tag is given the
    next number. ``ticket`` is the identity a phone gave it, so that it is delivered once. ``seen`` is the head of the page
    it was typed on: when another person wrote about the same part since, ``Moved`` carries their entry."""
    if not note.part.strip() or not note.item.strip():
        raise Refused("A part was noted without a name; give the kind of part and which one it is, in your own words.")
    snapshot = job.snapshot()
    if ticket and (there := snapshot.part_noted(ticket)):
        return there
    old = snapshot.part_noted(note.supersedes) if note.supersedes else None
    if note.supersedes and old is None:
        raise Refused("The part that this note is about is not in the job; open the part's page again.")
    tag = note.tag if note.tag is not None else old.tag if old else next_tag(snapshot)
    _check_tag(snapshot, tag, old)
    bare = replace(note, tag=tag, id="", person="", at="", line="", off=0)
    same = {identity for identity, line in snapshot.part_lines.items() if old and line == old.line}
    entry = job.write(
        [Draft(kind="part", body=plain_body(bare), id=ticket)],
        person=person,
        seen=seen,
        touching=lambda entry: entry.kind == "part" and str(entry.body.get("supersedes", "")) in same,
    )[0]
    kept = job.snapshot().part_noted(entry.id)
    assert kept is not None
    return kept


def next_tag(snapshot: Snapshot) -> int:
    """The number after the highest that hangs on a part."""
    return max(snapshot.tag_index, default=0) + 1


def _check_tag(snapshot: Snapshot, tag: int | None, old: PartNote | None) -> None:
    if tag is None:
        return
    if not 1 <= tag <= HIGHEST_TAG:
        raise Refused(f"{tag} was read as the number on a tag; one from 1 to {HIGHEST_TAG} would be right.")
    holder = snapshot.tag_index.get(tag)
    if holder is not None and (old is None or holder.line != old.line):
        raise Refused(f"Tag {tag} hangs on {holder.item} already; take another, or leave the field empty for the next one.")


def put_back(job: Job, part: str, *, on: str, person: str) -> PartNote:
    """Say on which day a part was put back; "" says that it is off again."""
    note = job.snapshot().part_noted(part)
    if note is None:
        raise Refused("No such part is noted in this job; the list of parts shows those that are.")
    return note_part(job, replace(note, back=on, supersedes=note.id), person=person)


def add_picture(job: Job, data: bytes, note: PictureNote, *, person: str) -> PictureNote:
    """Keep a picture, untouched, under the digest of its bytes, with the camera's own time and the upright size."""
    from gudgeon.pictures.photograph import facts_of, kind_of

    if len(data) > LARGEST_PICTURE:
        raise Refused(f"{note.name} is {len(data) / 1e6:.0f} MB; a picture is at most {LARGEST_PICTURE / 1e6:.0f} MB.")
    if not kind_of(data):
        raise Refused(f"{note.name} is no picture that can be kept; JPEG, PNG or HEIC would be right.")
    facts = facts_of(data)
    if facts:
        note = replace(note, taken=note.taken or facts.taken, width=facts.width, height=facts.height)
    kept = replace(note, digest=job.file.add_picture(data))
    job.write([Draft(kind="picture", body=plain_body(kept))], person=person)
    return job.snapshot().picture_index[kept.digest]


def note_picture(job: Job, note: PictureNote, *, person: str, seen: str | None = None) -> PictureNote:
    """Write anew what a picture shows: its part, the words under it, the picture from before the work."""
    known = job.snapshot().picture_index
    if note.digest not in known:
        raise Refused("That picture is not in this job; open it from the list of pictures.")
    if note.before and (note.before not in known or note.before == note.digest):
        raise Refused("The picture from before the work must be another picture of this job; choose one from the list.")
    bare = replace(note, person="", at="")
    touching = partial(_of_picture, kind="picture", digest=note.digest)
    job.write([Draft(kind="picture", body=plain_body(bare))], person=person, seen=seen, touching=touching)
    return job.snapshot().picture_index[note.digest]


def mark_picture(job: Job, digest: str, marks: Sequence[PhotoMark], *, person: str, seen: str | None = None) -> PhotoMarks:
    """Keep what is drawn on a picture, in the place of what was drawn before. The picture itself is not touched."""
    if digest not in job.snapshot().picture_index:
        raise Refused("That picture is not in this job; open it from the list of pictures.")
    if len(marks) > MOST_MARKS:
        raise Refused(f"{len(marks)} marks were drawn; a picture carries at most {MOST_MARKS}.")
    cut = tuple(replace(mark, text=" ".join(mark.text.split())[:LONGEST_TEXT]) for mark in marks)
    drawn = PhotoMarks(digest=digest, marks=cut)
    touching = partial(_of_picture, kind="marks", digest=digest)
    job.write([Draft(kind="marks", body=plain_body(drawn))], person=person, seen=seen, touching=touching)
    return job.snapshot().marks[digest]


def _of_picture(entry: Entry, *, kind: str, digest: str) -> bool:
    return entry.kind == kind and entry.body.get("digest") == digest


def photo(job: Job, digest: str, *, size: str = "") -> tuple[bytes, str]:
    """A picture's bytes and media type: as it came, or ``size`` "small" or "large", made once and kept in the cache. What
    cannot be opened here comes as b"" in a small size, and whole as it is."""
    from gudgeon.pictures.photograph import KINDS, kind_of, small_copy

    if size in SIZES:
        name = f"{size}-{digest}.jpg"
        kept = job.file.cached(name)
        if kept is None and (kept := small_copy(job.file.picture(digest), longest=SIZES[size])):
            job.file.cache(name, kept)
        return kept or b"", "image/jpeg"
    data = job.file.picture(digest)
    return data, KINDS.get(kind_of(data), "application/octet-stream")


def add_step(job: Job, step: StepDraft, *, person: str) -> StepDraft:
    """Add a step of the owner's own to the plan."""
    if not step.key.strip() or not step.title.strip():
        raise Refused("A step was added without a name; say in a few words what is to be done.")
    job.write([Draft(kind="step", body=plain_body(step))], person=person)
    return step
