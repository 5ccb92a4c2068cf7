"""Pages outside a job: the shed, who sits here, pairing a device, and every element in all its states."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from markupsafe import Markup
from starlette.responses import RedirectResponse, Response

from gudgeon.engine.finding import Finding
from gudgeon.engine.outline import Outline
from gudgeon.engine.picture import BoreMap, Curve, SizePosterior, Strip, WallMap
from gudgeon.pictures import PartState, PlanStop, PlanStreams, draw, draw_plan, draw_spot, engine_section
from gudgeon.web import people, words
from gudgeon.web.addresses import Addresses
from gudgeon.web.frame import drawn, page
from gudgeon.web.pairing import COOKIE, LIFE, is_this_machine
from gudgeon.web.visit import Visit, go
from gudgeon.workbench.faults import Refused


@dataclass(frozen=True, slots=True, kw_only=True)
class JobLine:
    """A job in the shed."""

    name: str
    href: str
    about: str
    fault: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShedPage:
    """The shed."""

    jobs: tuple[JobLine, ...]


def show_shed(visit: Visit) -> Response:
    """The jobs of the shed; straight on to the job where there is only one."""
    if visit.jobs.only:
        return RedirectResponse(Addresses(visit.jobs.only).engine(), status_code=303)
    lines = tuple(
        JobLine(
            name=info.name,
            href=Addresses(info.folder.name).engine(),
            about=f"{info.entries} entries, last {visit.tell.moment(info.last_change)}",
            fault=info.fault,
        )
        for info in visit.jobs.infos()
    )
    return page(visit, "shed.html", ShedPage(jobs=lines), sheet="shed")


@dataclass(frozen=True, slots=True, kw_only=True)
class DeviceRow:
    """A paired device."""

    name: str
    digest: str
    since: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WhoPage:
    """Who sits here."""

    name: str
    units: str
    next: str
    devices: tuple[DeviceRow, ...]
    code: str


def _next(visit: Visit) -> str:
    """Where to go on to: a path of our own, never another site."""
    asked = visit.form.text("next") or visit.asked("next")
    return asked if asked.startswith("/") and not asked.startswith(("//", "/\\")) else "/"


def show_who(visit: Visit) -> Response:
    """The form."""
    pairing = visit.pairing
    here = pairing is not None and is_this_machine(visit.request)
    devices = pairing.devices.values() if pairing and here else ()
    data = WhoPage(
        name=visit.form.get("name", visit.person.name),
        units=visit.form.get("units", visit.person.units),
        next=_next(visit),
        devices=tuple(
            DeviceRow(name=d.name, digest=d.digest, since=f"{datetime.fromtimestamp(d.since):%d.%m.%Y %H:%M}") for d in devices
        ),
        code=pairing.code if pairing and here else "",
    )
    return page(visit, "who.html", data, sheet="who sits here")


def keep_who(visit: Visit) -> Response:
    """Keep name and units; or end a device's pairing."""
    if digest := visit.form.text("end"):
        if visit.pairing is None or not is_this_machine(visit.request):
            raise Refused(words.NOT_PAIRED)
        visit.pairing.end(digest)
        return go("/who")
    name = people.cleaned(visit.form.text("name"))
    if not name:
        raise Refused(words.NO_NAME)
    response = go(_next(visit), words.SAID_PERSON.format(name=name))
    people.keep(response, name=name, units=visit.form.text("units"))
    return response


@dataclass(frozen=True, slots=True, kw_only=True)
class PairPage:
    """The form for the code."""

    code: str


def show_pair(visit: Visit) -> Response:
    """The form for the code; a scanned QR brings it along, and the person sends it."""
    return page(visit, "pair.html", PairPage(code=visit.asked("code")[:12]), sheet="pair this device")


def pair(visit: Visit) -> Response:
    """Pair this device."""
    if visit.pairing is None:
        return go("/")
    if visit.pairing.resting():
        raise Refused(words.TOO_MANY_CODES)
    agent = visit.form.text("device") or visit.request.headers.get("user-agent", "")[:60]
    token = visit.pairing.pair(visit.form.text("code"), name=people.cleaned(agent))
    if token is None:
        raise Refused(words.WRONG_CODE)
    response = go("/")
    response.set_cookie(COOKIE, token, max_age=LIFE, httponly=True, samesite="strict")
    return response


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternsPage:
    """Every picture, for looking at."""

    pictures: tuple[tuple[str, Markup], ...]
    sections: tuple[tuple[str, Markup, Markup], ...]


def show_patterns(visit: Visit) -> Response:
    """Every element in all its states. The sizes on it are made up."""
    units = visit.person.units
    pictures = [(title, drawn(draw(picture, units=units))) for title, picture in _samples()]
    spot = draw_spot(levels=("ridge", "top of ring travel", "middle", "below"), level="middle", direction=90.0, inside=True)
    pictures += [("The place of a reading", drawn(spot)), ("Plan", drawn(draw_plan(_plan())))]
    data = PatternsPage(pictures=tuple(pictures), sections=_sections())
    return page(visit, "patterns.html", data, sheet="patterns")


def _sections() -> tuple[tuple[str, Markup, Markup], ...]:
    states = {
        "cylinder 1": PartState("make good: at the grinder’s", "blue", "#states"),
        "piston 2": PartState("skirt clearance: past its limit", "red", "#states"),
        "main 1": PartState("measured, inside its limits", "", "#states"),
    }
    outlines = (
        Outline(
            name="Three upright, singly, F head",
            cylinders=3,
            casting="singly",
            head="integral",
            valves="F head",
            lie="vertical",
        ),
        Outline(
            name="Four upright, in pairs, T head",
            cylinders=4,
            casting="in pairs",
            head="integral",
            valves="T head",
            lie="vertical",
        ),
        Outline(
            name="Eight upright, en bloc, L head",
            cylinders=8,
            casting="en bloc",
            head="detachable",
            valves="L head",
            lie="vertical",
        ),
        Outline(
            name="Two lying, overhead", cylinders=2, casting="in pairs", head="detachable", valves="overhead", lie="horizontal"
        ),
        Outline(
            name="One upright, air-cooled", cylinders=1, head="detachable", valves="overhead", lie="vertical", cooling="air"
        ),
    )
    return tuple(
        (
            outline.name,
            drawn(engine_section(outline, states, width="wide")),
            drawn(engine_section(outline, states, width="narrow")),
        )
        for outline in outlines
    )


def _samples() -> tuple[tuple[str, Strip | BoreMap | WallMap | SizePosterior | Curve], ...]:
    thou = 25.4e-6
    past = Finding(
        system="sample",
        part="part",
        item="sample",
        quantity="out of round",
        dimension="length",
        value=6.1 * thou,
        low=5.5 * thou,
        high=6.7 * thou,
        target_low=0.0,
        target_high=1 * thou,
        limit=5 * thou,
    )
    least = Finding(
        system="sample",
        part="part",
        item="sample",
        quantity="wall",
        dimension="length",
        value=200 * thou,
        low=180 * thou,
        high=220 * thou,
        limit=150 * thou,
        limit_is="least",
        as_fitted=210 * thou,
    )
    spots = tuple(
        (depth * 0.0254, direction, wear * thou * (1 + (direction == 90)))
        for depth, wear in ((0.5, 5.0), (1.7, 2.6), (3.0, 1.0), (4.6, 0.3))
        for direction in (0.0, 90.0)
    )
    wall = tuple(
        (depth, direction, 0.005 + 0.001 * (direction == 90) - depth / 50)
        for depth in (0.02, 0.08)
        for direction in (0.0, 90.0, 180.0, 270.0)
    )
    return (
        ("A finding past its limit", Strip(finding=past)),
        ("A least size, with the size as fitted", Strip(finding=least)),
        (
            "A bore",
            BoreMap(
                title="sample bore",
                spots=spots,
                travel_top=0.011,
                travel_bottom=0.112,
                worst=10 * thou,
                nominal=0.1143,
                clean_up=0.1147,
            ),
        ),
        ("Wall left", WallMap(title="sample wall", spots=wall, least=0.004)),
        (
            "Which size the drawing called for",
            SizePosterior(
                title="sample", candidates=((0.1143, "4 1/2", 0.86), (0.11455, "4.510", 0.11)), readings=(0.11431, 0.11434)
            ),
        ),
        (
            "Curves",
            Curve(
                title="sample",
                x_text="load, share of full",
                y_text="speed, rev/min",
                curves=(
                    ("rising", ((0.0, 478.0), (0.5, 462.0), (1.0, 450.0))),
                    ("falling", ((0.0, 484.0), (0.5, 470.0), (1.0, 456.0))),
                ),
                bands=(("aimed at", 445.0, 455.0),),
            ),
        ),
    )


def _plan() -> PlanStreams:
    stops = (
        PlanStop(key="a", title="measure the bores", when="done 3 March 2027", arm="cylinders", kind="done"),
        PlanStop(
            key="b",
            title="bore the block",
            when="about 12 April 2027; send by 20 March",
            arm="cylinders",
            kind="shop",
            after=("a",),
        ),
        PlanStop(key="c", title="pour the mains", when="too late: about 22 May 2027", arm="bearings", kind="shop", late=True),
        PlanStop(
            key="d",
            title="close the crankcase: clearances read",
            when="about 28 May 2027",
            arm="fit-up",
            kind="hold",
            after=("b", "c"),
        ),
    )
    return PlanStreams(
        title="sample plan", stops=stops, common="fit-up", end="can run: 1 June 2027", target="aimed at: 1 May 2027"
    )
