"""A part noted in seconds at teardown: its name by a tap or in any words, what is to be remembered of it, its photos."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from starlette.responses import Response

from gudgeon import workbench
from gudgeon.engine.finding import Finding
from gudgeon.engine.part import PartNote
from gudgeon.engine.snapshot import PictureNote
from gudgeon.engine.system import System
from gudgeon.systems import ALL
from gudgeon.web import words
from gudgeon.web.addresses import anchor
from gudgeon.web.engine_page import bench_of, group_of, today
from gudgeon.web.frame import page
from gudgeon.web.parts_page import Thumb, pictures_of, thumb
from gudgeon.web.visit import Visit, go
from gudgeon.workbench.faults import Refused

PLAIN = ("place", "orientation", "marks", "mates", "stored", "note")
STAYS = ("stored",)
"""Fields that the next part is likely to share: they are filled in again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SystemChoice:
    """A system to pick the part from."""

    title: str
    href: str
    here: bool
    left: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemChoice:
    """An instance to tap."""

    name: str
    noted: bool
    here: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class NotePage:
    """The form, empty or filled with what stands."""

    systems: tuple[SystemChoice, ...]
    kinds: tuple[tuple[str, tuple[ItemChoice, ...]], ...]
    every: tuple[str, ...]
    values: Mapping[str, str]
    ticked: tuple[tuple[str, bool], ...]
    left: str
    right: str
    tag: str
    supersedes: str
    post: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PartPage:
    """One part, with the form to change it."""

    line: str
    item: str
    tag: str
    back: str
    facts: tuple[tuple[str, str], ...]
    thumbs: tuple[Thumb, ...]
    states: tuple[tuple[str, str, str], ...]
    bench: str
    who: str
    form: NotePage
    list: str
    before: str
    after: str
    today: str


def show(visit: Visit) -> Response:
    """The form for the next part."""
    last = max(visit.snapshot.parts, key=lambda note: note.off, default=None)
    stays = {name: getattr(last, name) for name in STAYS} if last else {}
    values = {**stays, "item": visit.asked("item"), **visit.form}
    tag = visit.form.get("tag", visit.asked("tag")) if visit.asked("tag").isdecimal() or "tag" in visit.form else ""
    data = _form(visit, values, tag=tag, supersedes="", post=visit.at.note(system=visit.asked("system")))
    return page(visit, "note.html", data, sheet=words.SHEETS["note"], here="parts")


def _form(visit: Visit, values: Mapping[str, str], *, tag: str, supersedes: str, post: str) -> NotePage:
    chosen = next((system for system in ALL if system.key == visit.asked("system")), None)
    noted = {note.item for note in visit.snapshot.parts}
    ticked, rest = _ticked(values)
    shims = re.fullmatch(r"left: (.*?); right: (.*)", values.get("shims", ""))
    left, right = (shims[1], shims[2]) if shims else (values.get("shims", ""), "")
    return NotePage(
        systems=tuple(
            SystemChoice(
                title=system.title,
                href=visit.at.note(system=system.key, tag=tag),
                here=system is chosen,
                left=sum(item not in noted for item in _items(visit, system)),
            )
            for system in ALL
        ),
        kinds=_kinds(visit, chosen, noted, values.get("item", "")) if chosen else (),
        every=tuple(dict.fromkeys(item for system in ALL for item in _items(visit, system))),
        values={**dict.fromkeys((*PLAIN, "item", "condition"), ""), **values, "condition": rest},
        ticked=tuple((word, word in ticked) for word in words.CONDITIONS),
        left=values.get("left", left),
        right=values.get("right", right),
        tag=tag,
        supersedes=supersedes,
        post=post,
    )


def _items(visit: Visit, system: System) -> tuple[str, ...]:
    outline = visit.snapshot.outline
    return visit.job.kept(
        ("items", system.key), (outline,), lambda: tuple(item for kind in system.parts for item in kind.items(outline))
    )


def _kinds(visit: Visit, system: System, noted: set[str], here: str) -> tuple[tuple[str, tuple[ItemChoice, ...]], ...]:
    outline = visit.snapshot.outline
    found = []
    for kind in system.parts:
        items = kind.items(outline) or (kind.title.lower(),)
        found.append((kind.title, tuple(ItemChoice(name=name, noted=name in noted, here=name == here) for name in items)))
    return tuple(found)


def _ticked(values: Mapping[str, str]) -> tuple[set[str], str]:
    """The condition as taps and the words beside them: from the form where it came back, else from the note."""
    taps = {word for n, word in enumerate(words.CONDITIONS) if values.get(f"c{n}")}
    if values.get("what"):
        return taps, values.get("condition", "")
    pieces = [piece.strip() for piece in values.get("condition", "").split(",") if piece.strip()]
    return {piece for piece in pieces if piece in words.CONDITIONS}, ", ".join(
        piece for piece in pieces if piece not in words.CONDITIONS
    )


def keep(visit: Visit) -> Response:
    """Note a new part with its photos, and go on to the next."""
    note = _noted(visit, PartNote(id="", part="", item=""))
    if visit.form.text("then") == "look":
        return go(visit.at.part(note.line), words.SAID_PART.format(item=note.item))
    said = words.SAID_PART_MORE.format(item=note.item, tag=note.tag)
    return go(visit.at.note(system=visit.asked("system")), said)


def _noted(visit: Visit, old: PartNote) -> PartNote:
    """The note that the form says, written down; its photos first, so that the note can name them."""
    form, person = visit.form, visit.need_name()
    item = form.text("item") or form.text("pick")
    if not item:
        raise Refused("A part was noted without a name; tap one, or give it one in your own words, such as “piston 2”.")
    sent = form.many("pictures") + form.many("more_pictures")
    for file in sent:
        check_picture(file.data, file.name)
    digests = [
        workbench.add_picture(
            visit.job, file.data, PictureNote(digest="", name=file.name, part=kind_of(visit, item), item=item), person=person
        ).digest
        for file in sent
    ]
    note = replace(
        old,
        part=old.part if old.item == item else kind_of(visit, item),
        item=item,
        tag=_tag(form.text("tag")) if "tag" in form else old.tag,
        condition=_condition(form),
        shims=_shims(form.text("left"), form.text("right")),
        pictures=tuple(dict.fromkeys((*old.pictures, *digests))),
        supersedes=old.id,
        **{name: form.text(name) for name in PLAIN},  # type: ignore[arg-type]
    )
    return workbench.note_part(
        visit.job, note, person=person, ticket=form.text("ticket")[:60], seen=form.text("seen") or None if old.id else None
    )


def check_picture(data: bytes, name: str) -> None:
    """Refuse a file that is no picture before anything of its form is written."""
    from gudgeon.pictures.photograph import kind_of as kind_of_picture

    if not kind_of_picture(data):
        raise Refused(words.NO_FILE_WITH_PICTURES.format(name=name))


def _tag(typed: str) -> int | None:
    if not typed:
        return None
    if not typed.isdecimal() or len(typed) > 6:
        raise Refused(words.NO_TAG.format(typed=typed))
    return int(typed)


def _condition(form: Mapping[str, str]) -> str:
    taps = [word for n, word in enumerate(words.CONDITIONS) if form.get(f"c{n}")]
    return ", ".join(filter(None, (*taps, form.get("condition", "").strip())))


def _shims(left: str, right: str) -> str:
    if left and right:
        return words.SHIM_SIDES.format(left=left, right=right)
    return left or (right and words.SHIM_SIDES.format(left=words.EMPTY, right=right))


def kind_of(visit: Visit, item: str) -> str:
    """The kind of part that an instance's name belongs to: as a system names it, or its own words without the number."""
    for system in ALL:
        if item in _items(visit, system):
            return next(kind.kind for kind in system.parts if item in kind.items(visit.snapshot.outline))
    bare = re.sub(r"\s*\d+\s*$", "", item).strip().lower() or item
    kinds = [kind for system in ALL for kind in system.parts]
    named = (kind.kind for kind in kinds if bare in (kind.kind.lower(), kind.title.lower(), re.sub(r"\s*\{n\}", "", kind.item)))
    return next(named, bare)


def show_part(visit: Visit) -> Response:
    """One part's page."""
    note = _part(visit)
    snapshot = visit.snapshot
    order = sorted(snapshot.parts, key=lambda other: other.off)
    at = next(n for n, other in enumerate(order) if other.line == note.line)
    typed = dict(visit.form) if visit.form.text("what") == "note" else {}
    values = {**{name: getattr(note, name) for name in (*PLAIN, "item", "condition", "shims")}, **typed}
    form = _form(visit, values, tag=typed.get("tag", str(note.tag or "")), supersedes=note.id, post=visit.at.part(note.line))
    data = PartPage(
        line=note.line,
        item=note.item,
        tag=str(note.tag) if note.tag is not None else "",
        back=visit.tell.day(note.back),
        facts=tuple(
            (words.FIELDS[name], getattr(note, name))
            for name in ("condition", "place", "orientation", "marks", "shims", "mates", "stored", "note")
            if getattr(note, name)
        ),
        thumbs=tuple(thumb(visit, snapshot.picture_index[digest]) for digest in pictures_of(snapshot, note)),
        states=_states(visit, note),
        bench=bench_of(visit, note.part, note.item, ""),
        who=f"{note.person}, {visit.tell.moment(note.at)}",
        form=form,
        list=visit.at.page("parts"),
        before=visit.at.part(order[at - 1].line) if at else "",
        after=visit.at.part(order[at + 1].line) if at + 1 < len(order) else "",
        today=today().isoformat(),
    )
    return page(visit, "part.html", data, sheet=words.SHEETS["part"].format(name=note.item), here="parts")


def _part(visit: Visit) -> PartNote:
    note = visit.snapshot.part_noted(visit.path("part"))
    if note is None:
        raise KeyError(words.NO_PART)
    return note


def _states(visit: Visit, note: PartNote) -> tuple[tuple[str, str, str], ...]:
    """What the reckoning found of it, worst first: sentence, tone, where it stands."""
    from gudgeon.web.findings_page import RANK, tone_of
    from gudgeon.workbench.standing import BeingReckoned

    try:
        findings = [finding for finding in visit.job.reckoning().findings if finding.item == note.item]
    except BeingReckoned:
        return ()
    worst: dict[tuple[str, str], Finding] = {}
    for finding in sorted(findings, key=lambda one: RANK[one.standing]):
        worst.setdefault((finding.system, finding.quantity), finding)
    return tuple(
        (
            f"{finding.quantity}: {words.STANDING[finding.standing]}",
            tone_of(finding.standing),
            visit.at.findings(system, anchor(group_of(note.item))),
        )
        for (system, _), finding in list(worst.items())[:8]
    )


def act(visit: Visit) -> Response:
    """Change a part's note, add photos, say that it is back or off again."""
    note, what = _part(visit), visit.form.text("what")
    if what == "pictures":
        return _more_pictures(visit, note)
    if what in ("back", "off"):
        person = visit.need_name()
        on = visit.form.day("on", what=words.FIELDS["back"]) or today().isoformat() if what == "back" else ""
        workbench.put_back(visit.job, note.line, on=on, person=person)
        said = words.SAID_BACK if on else words.SAID_OFF
        return go(visit.at.part(note.line), said.format(item=note.item))
    changed = _noted(visit, note)
    return go(visit.at.part(changed.line), words.SAID_PART.format(item=changed.item))


def _more_pictures(visit: Visit, note: PartNote) -> Response:
    person, sent = visit.need_name(), visit.form.many("pictures") + visit.form.many("more_pictures")
    if not sent:
        raise Refused(words.NO_PICTURE)
    for file in sent:
        check_picture(file.data, file.name)
    for file in sent:
        picture = PictureNote(digest="", name=file.name, part=note.part, item=note.item)
        workbench.add_picture(visit.job, file.data, picture, person=person)
    return go(visit.at.part(note.line), words.counted(words.SAID_PICTURES, len(sent)))
