"""The title block that every page of a job carries, and the rendering of a page in it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup
from starlette.responses import HTMLResponse

from gudgeon.engine.outline import Outline
from gudgeon.web import people, words
from gudgeon.web.visit import Visit
from gudgeon.workbench.standing import given_an_old_one

HERE = Path(__file__).parent


@dataclass(frozen=True, slots=True)
class Place:
    """One entry of the row of pages."""

    name: str
    href: str
    here: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The title block's words."""

    engine: str
    about: str
    sheet: str
    person: str
    units: str
    places: tuple[Place, ...]
    who: str
    said: str
    fault: str
    shed: str
    here: str
    seen: str
    old: bool
    fresh: str
    theirs: tuple[tuple[str, str, str], ...]


@cache
def environment() -> Environment:
    """The templates; autoescape is on for all, and a name that a page does not have is an error."""
    env = Environment(
        loader=FileSystemLoader(HERE / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    env.globals["words"] = words
    return env


def drawn(svg: str) -> Markup:
    """A picture of ours, whose texts are escaped already."""
    return Markup(svg)


def page(visit: Visit, template: str, data: object, *, sheet: str, here: str = "", status: int = 200) -> HTMLResponse:
    """A page from its template: ``page`` is its data, ``frame`` the title block, ``typed`` what came with a refused form."""
    text = (
        environment()
        .get_template(template)
        .render(page=data, frame=frame_of(visit, sheet, here), at=visit.at, typed=visit.form, ask_name=not visit.person.name)
    )
    return HTMLResponse(text, status_code=status)


def piece(visit: Visit, template: str, data: object, *, sheet: str, here: str) -> HTMLResponse:
    """A piece of a page for the script that asks with ``piece=1``; the same in a page of its own for who has no script."""
    if visit.asked("piece") != "1":
        return page(visit, "piece.html", {"template": template, "data": data}, sheet=sheet, here=here)
    return HTMLResponse(environment().get_template(template).render(page=data, at=visit.at))


def frame_of(visit: Visit, sheet: str, here: str) -> Frame:
    """The title block of a visit."""
    outline = visit.snapshot.outline if visit.name else Outline(name=words.PROGRAM)
    places = tuple(Place(name, visit.at.page(key), key == here) for key, name in words.NAV) if visit.name else ()
    address = visit.request.url.path
    return Frame(
        engine=outline.name,
        about=about(outline),
        sheet=sheet,
        person=visit.person.name,
        units=visit.person.units,
        places=places,
        who=f"/who?next={address}",
        said=people.said(visit.request),
        fault=visit.fault,
        shed="" if visit.jobs.single or not visit.name else "/",
        here=address,
        seen=visit.snapshot.head if visit.name else "",
        old=given_an_old_one(),
        fresh=f"{visit.at.root}/fresh" if visit.name else "",
        theirs=theirs(visit),
    )


def theirs(visit: Visit) -> tuple[tuple[str, str, str], ...]:
    """Where another person wrote to the same thing meanwhile: every field in which the two differ, what stands now and
    what was typed here."""
    if visit.crossed is None:
        return ()
    stands = values_in(visit.crossed.body)
    return tuple(
        (words.FIELDS.get(name, name.replace("_", " ")), stands[name] or words.EMPTY, typed or words.EMPTY)
        for name, typed in ((name, visit.form.text(name)) for name in visit.form)
        if name in stands and stands[name] != typed
    )


def values_in(body: Mapping[str, Any]) -> dict[str, str]:
    """The texts of an entry's body by name, whatever it is nested in."""
    found: dict[str, str] = {}
    for name, value in body.items():
        if isinstance(value, Mapping):
            found |= values_in(value)
        elif isinstance(value, str | int):
            found[name] = str(value)
    return found


def about(outline: Outline) -> str:
    """The engine in one line, from what is known."""
    count = outline.cylinders
    pieces: list[Any] = [
        f"{count} cylinder{'s' * (count != 1)}" if count else "",
        f"cast {outline.casting}" if outline.casting and count != 1 else "",
        f"{outline.head} head" if outline.head and "head" not in (outline.valves or "") else "",
        outline.valves if outline.valves and "head" in outline.valves else f"{outline.valves} valves" if outline.valves else "",
        outline.lie,
        outline.built,
    ]
    return ", ".join(piece for piece in pieces if piece)
