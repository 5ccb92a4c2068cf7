"""Parts as noted: found by words, tag, system, place or picture; and the same list from its end, for putting together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from starlette.responses import Response

from gudgeon import workbench
from gudgeon.engine.part import PartNote
from gudgeon.engine.snapshot import PictureNote, Snapshot
from gudgeon.systems import ALL
from gudgeon.web import words
from gudgeon.web.engine_page import today
from gudgeon.web.frame import page
from gudgeon.web.visit import Visit, go
from gudgeon.workbench.faults import Refused

AT_ONCE = {"list": 30, "together": 30, "pictures": 60}
THUMBS = 4
SOUGHT = ("part", "item", "place", "orientation", "marks", "condition", "shims", "mates", "stored", "note")


@dataclass(frozen=True, slots=True, kw_only=True)
class Thumb:
    """A photo on a list."""

    href: str
    small: str
    words: str
    item: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRow:
    """A part on the list."""

    line: str
    href: str
    item: str
    tag: str
    where: str
    condition: str
    stored: str
    back: str
    mates: str
    marks: str
    orientation: str
    shims: str
    thumbs: tuple[Thumb, ...]
    more: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One way to look at the list."""

    title: str
    href: str
    here: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PartsPage:
    """The list."""

    see: str
    sees: tuple[Choice, ...]
    systems: tuple[Choice, ...]
    find: str
    system: str
    rows: tuple[PartRow, ...]
    thumbs: tuple[Thumb, ...]
    places: tuple[str, ...]
    count: int
    noted: int
    back: int
    span: str
    before: str
    after: str
    note: str
    tags: str
    today: str


@cache
def systems_by_kind() -> dict[str, str]:
    """Which system a kind of part belongs to."""
    return {kind.kind: system.key for system in reversed(ALL) for kind in system.parts}


def show(visit: Visit) -> Response:
    """The list, as far as it is narrowed."""
    snapshot = visit.snapshot
    see = visit.asked("see") if visit.asked("see") in AT_ONCE else "list"
    found = _found(visit, see)
    pictures = _pictures(visit, found) if see == "pictures" else ()
    things: Sequence[object] = pictures if see == "pictures" else found
    size = AT_ONCE[see]
    first = min(visit.whole("from") or 0, max(0, len(things) - 1)) // size * size
    asked = {name: visit.asked(name) for name in ("find", "system")}
    data = PartsPage(
        see=see,
        sees=tuple(Choice(title=title, href=visit.at.parts(see=key, **asked), here=key == see) for key, title in words.SEE),
        systems=_systems(visit, see),
        find=visit.asked("find"),
        system=visit.asked("system"),
        rows=() if see == "pictures" else tuple(_row(visit, note) for note in found[first : first + size]),
        thumbs=tuple(thumb(visit, picture) for picture in pictures[first : first + size]),
        places=_places(snapshot),
        count=len(found),
        noted=len(snapshot.parts),
        back=sum(bool(note.back) for note in snapshot.parts),
        span=words.FIRST_LAST.format(first=first + 1, last=min(first + size, len(things)), count=len(things)) if things else "",
        before=visit.at.parts(see=see, **asked, **{"from": str(first - size)}) if first else "",
        after=visit.at.parts(see=see, **asked, **{"from": str(first + size)}) if first + size < len(things) else "",
        note=visit.at.note(system=visit.asked("system")),
        tags=visit.at.page("tags"),
        today=today().isoformat(),
    )
    return page(visit, "parts.html", data, sheet=words.SHEETS["parts"], here="parts")


def _found(visit: Visit, see: str) -> list[PartNote]:
    """The parts that are looked for, the last taken off first; for putting together, those still off before those back."""
    sought, system, kinds = visit.asked("find").lower().split(), visit.asked("system"), systems_by_kind()
    notes = [
        note
        for note in visit.snapshot.parts
        if (not system or kinds.get(note.part, words.OTHER_SYSTEM) == system) and _matches(note, sought)
    ]
    return sorted(notes, key=lambda note: (see == "together" and bool(note.back), -note.off))


def _matches(note: PartNote, sought: list[str]) -> bool:
    """Every word stands somewhere in the note; a number alone is looked for on the tag first."""
    if not sought:
        return True
    if len(sought) == 1 and sought[0].isdecimal() and note.tag == int(sought[0]):
        return True
    text = " ".join(getattr(note, name) for name in SOUGHT).lower()
    return all(word in text for word in sought)


def _pictures(visit: Visit, found: list[PartNote]) -> tuple[PictureNote, ...]:
    index, narrowed = visit.snapshot.picture_index, bool(visit.asked("find") or visit.asked("system"))
    if not narrowed:
        return tuple(reversed(visit.snapshot.pictures))
    digests = dict.fromkeys(digest for note in found for digest in pictures_of(visit.snapshot, note))
    return tuple(index[digest] for digest in digests)


def pictures_of(snapshot: Snapshot, note: PartNote) -> tuple[str, ...]:
    """Digests of all pictures of a part: those its note lists, and any other taken under its name."""
    known = snapshot.picture_index
    listed = (digest for digest in note.pictures if digest in known)
    return tuple(dict.fromkeys((*listed, *snapshot.pictures_of.get(note.item, ()))))


def thumb(visit: Visit, picture: PictureNote) -> Thumb:
    """A photo on a list."""
    return Thumb(
        href=visit.at.look(picture.digest),
        small=visit.at.picture(picture.digest, "small"),
        words=picture.note or picture.item or picture.name,
        item=picture.item,
    )


def _row(visit: Visit, note: PartNote) -> PartRow:
    digests = pictures_of(visit.snapshot, note)
    index = visit.snapshot.picture_index
    return PartRow(
        line=note.line,
        href=visit.at.part(note.line),
        item=note.item,
        tag=str(note.tag) if note.tag is not None else "",
        where=note.place,
        condition=note.condition,
        stored=note.stored,
        back=visit.tell.day(note.back),
        mates=note.mates,
        marks=note.marks,
        orientation=note.orientation,
        shims=note.shims,
        thumbs=tuple(thumb(visit, index[digest]) for digest in digests[:THUMBS]),
        more=max(0, len(digests) - THUMBS),
    )


def _systems(visit: Visit, see: str) -> tuple[Choice, ...]:
    kinds, chosen = systems_by_kind(), visit.asked("system")
    there = {kinds.get(note.part, words.OTHER_SYSTEM) for note in visit.snapshot.parts}
    titles = [(system.key, system.title) for system in ALL if system.key in there]
    if words.OTHER_SYSTEM in there and len(there) > 1:
        titles.append((words.OTHER_SYSTEM, words.OTHER_SYSTEM))
    find = visit.asked("find")
    return tuple(
        Choice(title=title, href=visit.at.parts(see=see, find=find, system="" if key == chosen else key), here=key == chosen)
        for key, title in titles
    )


def _places(snapshot: Snapshot) -> tuple[str, ...]:
    """Places and boxes to look by."""
    return tuple(dict.fromkeys(text for note in snapshot.parts for text in (note.stored, note.place) if text))[:60]


def put_back(visit: Visit) -> Response:
    """A part is back on the engine, or off again."""
    person, form = visit.need_name(), visit.form
    note = visit.snapshot.part_noted(form.text("part"))
    if note is None:
        raise Refused(words.NO_PART)
    on = "" if form.text("what") == "off" else form.day("on", what=words.FIELDS["back"]) or today().isoformat()
    workbench.put_back(visit.job, note.line, on=on, person=person)
    said = words.SAID_BACK if on else words.SAID_OFF
    return go(
        visit.at.parts(see="together", find=visit.asked("find"), system=visit.asked("system")), said.format(item=note.item)
    )
