"""Keep: parts noted at teardown, pictures, and work steps of the owner's own."""

from __future__ import annotations

from dataclasses import replace

from gudgeon.engine.part import PartNote
from gudgeon.engine.snapshot import PictureNote
from gudgeon.engine.step import StepDraft
from gudgeon.jobfile import Draft
from gudgeon.workbench.faults import Refused
from gudgeon.workbench.job import Job, plain_body

LARGEST_PICTURE = 60_000_000
_KINDS = ((b"\xff\xd8\xff", "jpg"), (b"\x89PNG\r\n\x1a\n", "png"))


def note_part(job: Job, note: PartNote, *, person: str) -> PartNote:
    """Write down a part. A note that names an older one in ``supersedes`` takes its place."""
    if not note.part.strip() or not note.item.strip():
        raise Refused("A part was noted without a name; give the kind of part and which one it is, in your own words.")
    entry = job.write([Draft(kind="part", body=plain_body(note))], person=person)[0]
    return next(part for part in job.snapshot().parts if part.id == entry.id)


def picture_kind(data: bytes) -> str:
    """ "jpg", "png" or "heic" by the file's first bytes; "" for anything else."""
    if data[4:8] == b"ftyp" and data[8:12] in (b"heic", b"heix", b"mif1", b"hevc"):
        return "heic"
    return next((kind for magic, kind in _KINDS if data.startswith(magic)), "")


def add_picture(job: Job, data: bytes, note: PictureNote, *, person: str) -> PictureNote:
    """Keep a picture, untouched, under the digest of its bytes."""
    if len(data) > LARGEST_PICTURE:
        raise Refused(f"{note.name} is {len(data) / 1e6:.0f} MB; a picture is at most {LARGEST_PICTURE / 1e6:.0f} MB.")
    if not picture_kind(data):
        raise Refused(f"{note.name} is no picture that can be kept; JPEG, PNG or HEIC would be right.")
    kept = replace(note, digest=job.file.add_picture(data))
    job.write([Draft(kind="picture", body=plain_body(kept))], person=person)
    return job.snapshot().pictures[-1]


def add_step(job: Job, step: StepDraft, *, person: str) -> StepDraft:
    """Add a step of the owner's own to the plan."""
    if not step.key.strip() or not step.title.strip():
        raise Refused("A step was added without a name; say in a few words what is to be done.")
    job.write([Draft(kind="step", body=plain_body(step))], person=person)
    return step
