"""Pages that bring things into the job: the outline, a file of readings, lines to be mended, parts with their photos."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import get_args, get_type_hints

from starlette.responses import Response

from gudgeon import workbench
from gudgeon.engine.outline import Outline
from gudgeon.engine.outline_file import KEYS, NoOutline, read_outline, write_outline
from gudgeon.engine.part import PartNote
from gudgeon.engine.snapshot import PictureNote
from gudgeon.web import words
from gudgeon.web.frame import page
from gudgeon.web.photos import shown_bytes
from gudgeon.web.visit import Visit, go
from gudgeon.workbench.faults import NoneTaken, Refused


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlineKey:
    """One thing that may be known of the engine."""

    name: str
    label: str
    meaning: str
    example: str
    value: str
    choices: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlinePage:
    """The outline as a form."""

    keys: tuple[OutlineKey, ...]


def show_outline(visit: Visit) -> Response:
    """The outline."""
    written = _written(visit.job.snapshot().outline)
    hints = get_type_hints(Outline)
    keys = tuple(
        OutlineKey(
            name=key.name,
            label=key.name.replace("_rpm", "").replace("_", " "),
            meaning=key.meaning,
            example=key.example.strip('"'),
            value=visit.form.get(key.name, written.get(key.name, "")),
            choices=_choices(hints.get(key.target)),
        )
        for key in KEYS
    )
    return page(visit, "outline.html", OutlinePage(keys=keys), sheet="outline", here="engine")


def _choices(hint: object) -> tuple[str, ...]:
    """The words of a field that takes one of a few."""
    found = [choice for inner in get_args(hint) for choice in get_args(inner)]
    return tuple(str(choice) for choice in found)


def _written(outline: Outline) -> dict[str, str]:
    import tomllib

    return {name: str(value) for name, value in tomllib.loads(write_outline(outline)).items()}


def keep_outline(visit: Visit) -> Response:
    """Put a new outline in the old one's place."""
    person = visit.need_name()
    typed = {key.name: visit.form.text(key.name) for key in KEYS if visit.form.text(key.name)}
    try:
        outline = read_outline("\n".join(f"{name} = {_quoted(value)}" for name, value in typed.items()))
    except NoOutline as fault:
        raise Refused(str(fault).partition(": ")[2] or str(fault)) from fault
    workbench.change_outline(visit.job, outline, person=person)
    return go(visit.at.engine(), words.SAID_OUTLINE)


def _quoted(text: str) -> str:
    import json

    return json.dumps(text, ensure_ascii=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class BringInPage:
    """The page for a file of readings; after a refusal, its faults."""

    faults: tuple[tuple[int, str, str], ...]
    good: int
    source: str


def show_bring_in(visit: Visit) -> Response:
    """The page for a file of readings."""
    return page(visit, "bring_in.html", BringInPage(faults=(), good=0, source=""), sheet="readings from a file", here="bench")


def bring_in(visit: Visit) -> Response:
    """Take a file in: all of it, or only its good lines where that is asked for."""
    person, files = visit.need_name(), visit.form.files.get("file", ())
    if not files or not files[0].data:
        raise Refused(words.NO_FILE)
    try:
        taken = workbench.take_text(
            visit.job, files[0].data, source=files[0].name, person=person, good_only=visit.form.text("good_only") == "yes"
        )
    except NoneTaken as none:
        faults = tuple((fault.line, fault.text, fault.reason) for fault in none.faults)
        data = BringInPage(faults=faults, good=none.good, source=none.source)
        return page(visit, "bring_in.html", data, sheet="readings from a file", here="bench", status=422)
    return go(visit.at.page("findings"), str(taken))


@dataclass(frozen=True, slots=True, kw_only=True)
class RefusedLine:
    """A line that could not be read, with its cells where they can be told apart."""

    id: str
    row: int
    line: str
    reason: str
    source: str
    who: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RefusedPage:
    """All refused lines."""

    lines: tuple[RefusedLine, ...]


def show_refused(visit: Visit) -> Response:
    """The lines that could not be read."""
    lines = tuple(
        RefusedLine(
            id=r.id, row=r.row, line=r.line, reason=r.reason, source=r.source, who=f"{r.person}, {visit.tell.day(r.at)}"
        )
        for r in visit.job.snapshot().refused
    )
    return page(visit, "refused.html", RefusedPage(lines=lines), sheet="lines to mend", here="bench")


def mend(visit: Visit) -> Response:
    """Take a mended line."""
    form = visit.form
    names = ("part", "item", "feature", "station", "depth", "direction_deg", "reading", "unit", "instrument", "base", "note")
    columns = {name: form.text(name) for name in names if form.text(name)}
    workbench.put_reading(visit.job, columns, person=visit.need_name(), mends=form.text("mends"))
    return go(visit.at.page("refused"), words.SAID_MENDED)


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRow:
    """A part as noted."""

    id: str
    part: str
    item: str
    lines: tuple[tuple[str, str], ...]
    pictures: tuple[tuple[str, str, str], ...]
    who: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PartsPage:
    """Parts as they came off."""

    parts: tuple[PartRow, ...]
    loose: tuple[tuple[str, str, str], ...]
    kinds: tuple[str, ...]
    find: str


FIELDS = ("place", "orientation", "marks", "condition", "shims", "mates", "stored", "note")


def show_parts(visit: Visit) -> Response:
    """Parts as noted at teardown."""
    from gudgeon.systems import ALL

    snapshot, sought = visit.job.snapshot(), visit.asked("find").lower()
    names = {picture.digest: picture for picture in snapshot.pictures}
    parts = [
        note
        for note in reversed(snapshot.parts)
        if sought in " ".join([note.part, note.item, *(getattr(note, f) for f in FIELDS)]).lower()
    ]
    shown = {digest for note in snapshot.parts for digest in note.pictures}
    outline = snapshot.outline
    data = PartsPage(
        parts=tuple(_part(visit, note, names) for note in parts),
        loose=tuple(_picture(visit, picture) for picture in snapshot.pictures if picture.digest not in shown),
        kinds=tuple(item for system in ALL for kind in system.parts for item in kind.items(outline)),
        find=visit.asked("find"),
    )
    return page(visit, "parts.html", data, sheet="parts as they came off", here="parts")


def _picture(visit: Visit, picture: PictureNote) -> tuple[str, str, str]:
    return visit.at.picture(picture.digest), visit.at.picture(picture.digest, small=True), picture.note or picture.name


def _part(visit: Visit, note: PartNote, names: dict[str, PictureNote]) -> PartRow:
    return PartRow(
        id=note.id,
        part=note.part,
        item=note.item,
        lines=tuple((field, getattr(note, field)) for field in FIELDS if getattr(note, field)),
        pictures=tuple(_picture(visit, names[digest]) for digest in note.pictures if digest in names),
        who=f"{note.person}, {visit.tell.day(note.at)}",
    )


def keep_part(visit: Visit) -> Response:
    """Note a part, with its photos."""
    form, person = visit.form, visit.need_name()
    item = form.text("item")
    if not item:
        raise Refused("A part was noted without a name; give it one in your own words, such as “piston 2”.")
    sent = [file for file in form.files.get("pictures", ()) if file.data]
    kept = [
        workbench.add_picture(
            visit.job, file.data, PictureNote(digest="", name=file.name, part=item, item=item), person=person
        ).digest
        for file in sent
    ]
    note = replace(
        PartNote(id="", part=form.text("part") or item, item=item, pictures=tuple(kept)),
        **{name: form.text(name) for name in FIELDS},  # type: ignore[arg-type]
    )
    workbench.note_part(visit.job, note, person=person)
    return go(visit.at.page("parts"), words.SAID_PART.format(item=item))


def picture(visit: Visit) -> Response:
    """A photo of the job, whole or small. Only a digest that the job knows is looked up."""
    digest = visit.path("digest")
    if all(note.digest != digest for note in visit.job.snapshot().pictures):
        raise KeyError(words.NO_PAGE)
    data, kind = shown_bytes(visit.job, digest, small=visit.asked("small") == "1")
    return Response(data, media_type=kind, headers={"cache-control": "private, max-age=31536000, immutable"})
