"""A photo: shown upright with what is drawn on it, its facts, and the picture of the same thing before or after the work."""

from __future__ import annotations

import json
from dataclasses import dataclass, replace

from markupsafe import Markup
from starlette.responses import Response

from gudgeon import workbench
from gudgeon.engine.photo import PhotoMark
from gudgeon.engine.snapshot import PictureNote
from gudgeon.pictures import draw_marks
from gudgeon.web import words
from gudgeon.web.frame import drawn, page
from gudgeon.web.parts_page import Thumb, thumb
from gudgeon.web.visit import Visit, go
from gudgeon.workbench.faults import Refused
from gudgeon.workbench.keeping import SIZES

A_DAY_AND_MORE = "private, max-age=31536000, immutable"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A photo with what is drawn on it."""

    large: str
    words: str
    over: Markup
    width: int
    height: int
    when: str
    can_show: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoPage:
    """One photo's page."""

    shown: Shown
    before: Shown | None
    before_href: str
    afters: tuple[Thumb, ...]
    others: tuple[tuple[str, str, bool], ...]
    item: str
    part_href: str
    note: str
    marks: str
    listed: tuple[tuple[int, str, str], ...]
    original: str
    name: str
    who: str
    seen: str


def _picture(visit: Visit) -> PictureNote:
    """The picture of the address. Only a digest that the job knows is ever looked up."""
    picture = visit.snapshot.picture_index.get(visit.path("digest"))
    if picture is None:
        raise KeyError(words.NO_PAGE)
    return picture


def bytes_of(visit: Visit) -> Response:
    """A photo's bytes, as it came or made small."""
    picture = _picture(visit)
    size = visit.asked("size")
    data, kind = workbench.photo(visit.job, picture.digest, size=size if size in SIZES else "")
    if not data:
        return Response((CANNOT_SHOW).encode(), media_type="image/svg+xml", headers={"cache-control": "no-cache"})
    return Response(data, media_type=kind, headers={"cache-control": A_DAY_AND_MORE})


CANNOT_SHOW = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 120 120"><rect width="120" height="120" fill="#fcf8ee"/>'
    '<path d="M20 30h80v60H20zM20 80l24-24 20 20 14-14 22 22" fill="none" stroke="#5c5648" stroke-width="2"/></svg>'
)


def _shown(visit: Visit, picture: PictureNote) -> Shown:
    marks = visit.snapshot.marks.get(picture.digest)
    over = draw_marks(marks.marks, width=picture.width, height=picture.height) if marks and marks.marks else ""
    return Shown(
        large=visit.at.picture(picture.digest, "large"),
        words=picture.note or picture.item or picture.name,
        over=drawn(over),
        width=picture.width or 4,
        height=picture.height or 3,
        when=words.TAKEN_AT.format(at=visit.tell.clock(picture.taken)) if picture.taken else "",
        can_show=bool(picture.width),
    )


def show(visit: Visit) -> Response:
    """The photo."""
    picture, snapshot = _picture(visit), visit.snapshot
    before = snapshot.picture_index.get(picture.before)
    note = next((part for part in snapshot.parts if picture.item and part.item == picture.item), None)
    marks = snapshot.marks.get(picture.digest)
    same = [snapshot.picture_index[digest] for digest in snapshot.pictures_of.get(picture.item, ()) if picture.item]
    data = PhotoPage(
        shown=_shown(visit, picture),
        before=_shown(visit, before) if before else None,
        before_href=visit.at.look(before.digest) if before else "",
        afters=tuple(thumb(visit, other) for other in snapshot.pictures if other.before == picture.digest),
        others=tuple(
            (other.digest, _option(visit, other), other.digest == picture.before) for other in same if other is not picture
        ),
        item=picture.item,
        part_href=visit.at.part(note.line) if note else "",
        note=visit.form.get("note", picture.note),
        marks=visit.form.get("marks") or json.dumps([_plain(mark) for mark in marks.marks] if marks else []),
        listed=tuple((n, mark.kind, mark.text) for n, mark in enumerate(marks.marks)) if marks else (),
        original=visit.at.picture(picture.digest),
        name=picture.name,
        who=f"{picture.person}, {visit.tell.moment(picture.at)}",
        seen=snapshot.head,
    )
    return page(visit, "photo.html", data, sheet=words.SHEETS["photo"].format(name=picture.item or picture.name), here="parts")


def _option(visit: Visit, picture: PictureNote) -> str:
    return ", ".join(filter(None, (picture.note or picture.name, visit.tell.clock(picture.taken) if picture.taken else "")))


def _plain(mark: PhotoMark) -> dict[str, object]:
    return {
        "kind": mark.kind, "x": mark.x, "y": mark.y, "to_x": mark.to_x, "to_y": mark.to_y, "text": mark.text,
    }  # fmt: skip


def act(visit: Visit) -> Response:
    """Keep what is drawn, rub one mark out, or say what the photo shows."""
    picture, form = _picture(visit), visit.form
    person, seen = visit.need_name(), form.text("seen") or None
    if form.text("what") == "about":
        before = form.text("before")
        workbench.note_picture(visit.job, replace(picture, note=form.text("note"), before=before), person=person, seen=seen)
        return go(visit.at.look(picture.digest), words.SAID_ABOUT_PICTURE)
    standing = visit.snapshot.marks.get(picture.digest)
    if form.text("rub"):
        kept = [mark for n, mark in enumerate(standing.marks if standing else ()) if str(n) != form.text("rub")]
    else:
        kept = marks_of(form.text("marks"))
    workbench.mark_picture(visit.job, picture.digest, kept, person=person, seen=seen)
    return go(visit.at.look(picture.digest), words.SAID_MARKS)


def marks_of(text: str) -> list[PhotoMark]:
    """The marks that the page's script sent. Raises Refused for anything else."""
    try:
        rows = json.loads(text or "[]")
        return [
            PhotoMark(
                kind=row["kind"],
                text=str(row.get("text", "")),
                **{name: round(float(row.get(name, 0.0)), 4) for name in ("x", "y", "to_x", "to_y")},
            )
            for row in rows
        ]
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError) as fault:
        raise Refused(words.BAD_MARKS) from fault
