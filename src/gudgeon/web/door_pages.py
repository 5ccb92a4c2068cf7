"""Pages outside a job: the shed, who sits here, and letting a device in."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from starlette.responses import RedirectResponse, Response

from gudgeon.web import people, words
from gudgeon.web.addresses import Addresses
from gudgeon.web.frame import page
from gudgeon.web.pairing import COOKIE, LIFE, is_this_machine
from gudgeon.web.telling import Teller
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
            about=words.JOB_ABOUT.format(count=info.entries, at=visit.tell.moment(info.last_change)),
            fault=info.fault,
        )
        for info in visit.jobs.infos()
    )
    return page(visit, "shed.html", ShedPage(jobs=lines), sheet=words.SHEETS["shed"])


@dataclass(frozen=True, slots=True, kw_only=True)
class DeviceRow:
    """A paired device."""

    name: str
    digest: str
    since: str
    last: str


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
            DeviceRow(name=d.name, digest=d.digest, since=_moment(d.since), last=_moment(_last(visit, d.digest)))
            for d in devices
        ),
        code=pairing.code if pairing and here else "",
    )
    return page(visit, "who.html", data, sheet=words.SHEETS["who"])


def _last(visit: Visit, digest: str) -> float:
    return visit.pairing.last_here.get(digest, 0.0) if visit.pairing else 0.0


def _moment(at: float) -> str:
    return Teller.moment(datetime.fromtimestamp(at).astimezone().isoformat()) if at else ""


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
    return page(visit, "pair.html", PairPage(code=visit.asked("code")[:12]), sheet=words.SHEETS["pair"])


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
