"""Pages that bring things into the job: the outline, a file of readings, lines to be mended."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args, get_type_hints

from starlette.responses import Response

from gudgeon import workbench
from gudgeon.engine.outline import Outline
from gudgeon.engine.outline_file import KEYS, NoOutline, read_outline, write_outline
from gudgeon.web import words
from gudgeon.web.frame import page
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
    written = _written(visit.snapshot.outline)
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
    return page(visit, "outline.html", OutlinePage(keys=keys), sheet=words.SHEETS["outline"], here="engine")


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
    return page(visit, "bring_in.html", BringInPage(faults=(), good=0, source=""), sheet=words.SHEETS["bring in"], here="bench")


def bring_in(visit: Visit) -> Response:
    """Take a file in: all of it, or only its good lines where that is asked for."""
    person, files = visit.need_name(), visit.form.files.get("file", ())
    if not files or not files[0].size:
        raise Refused(words.NO_FILE)
    try:
        taken = workbench.take_text(
            visit.job, files[0].data, source=files[0].name, person=person, good_only=visit.form.text("good_only") == "yes"
        )
    except NoneTaken as none:
        faults = tuple((fault.line, fault.text, fault.reason) for fault in none.faults)
        data = BringInPage(faults=faults, good=none.good, source=none.source)
        return page(visit, "bring_in.html", data, sheet=words.SHEETS["bring in"], here="bench", status=422)
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
        for r in visit.snapshot.refused
    )
    return page(visit, "refused.html", RefusedPage(lines=lines), sheet=words.SHEETS["refused"], here="bench")


def mend(visit: Visit) -> Response:
    """Take a mended line."""
    form = visit.form
    names = ("part", "item", "feature", "station", "depth", "direction_deg", "reading", "unit", "instrument", "base", "note")
    columns = {name: form.text(name) for name in names if form.text(name)}
    workbench.put_reading(visit.job, columns, person=visit.need_name(), mends=form.text("mends"))
    return go(visit.at.page("refused"), words.SAID_MENDED)
