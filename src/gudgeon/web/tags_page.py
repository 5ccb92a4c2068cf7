"""Tags: sheets of them to print, and the way from a scanned or typed number to the part."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.responses import RedirectResponse, Response

from gudgeon import workbench
from gudgeon.web import words
from gudgeon.web.addresses import Addresses
from gudgeon.web.frame import page
from gudgeon.web.orders_page import pdf_answer
from gudgeon.web.own_addresses import own_addresses
from gudgeon.web.visit import Visit
from gudgeon.workbench.faults import Refused

A_SHEET = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class TagsPage:
    """What to print."""

    host: str
    first: int
    count: int
    noted: int
    paper: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WhichJobPage:
    """In a shed: the jobs that a number may belong to."""

    number: str
    jobs: tuple[tuple[str, str], ...]


def show(visit: Visit) -> Response:
    """The form for printing tags."""
    following = workbench.next_tag(visit.snapshot)
    data = TagsPage(
        host=visit.asked("host") or _host(visit),
        first=visit.whole("first") or following,
        count=visit.whole("count") or 2 * A_SHEET,
        noted=len(visit.snapshot.tag_index),
        paper=f"{visit.at.page('tags')}/tags.pdf",
    )
    return page(visit, "tags.html", data, sheet=words.SHEETS["tags"], here="parts")


def _host(visit: Visit) -> str:
    """Where phones would find this machine: its own address on the network, else the address of this page."""
    here = visit.request.url.netloc
    name, _, port = here.rpartition(":")
    if name in ("127.0.0.1", "localhost") and (own := own_addresses()):
        return f"{own[0]}:{port}"
    return here


def paper(visit: Visit) -> Response:
    """The tags as PDF: the next blank ones, or one for every part noted."""
    if not visit.asked("host"):
        raise Refused(words.NO_HOST)
    if visit.asked("which") == "noted":
        numbers = sorted(visit.snapshot.tag_index)
    else:
        first = visit.whole("first") or 1
        numbers = list(range(first, first + min(visit.whole("count") or A_SHEET, 400)))
    path = "/tag/" if visit.jobs.single else f"{visit.at.root}/tag/"
    return pdf_answer(workbench.tags_paper(visit.job, numbers, host=visit.asked("host"), path=path), "tags.pdf")


def open_tag(visit: Visit) -> Response:
    """The part that a tag hangs on; a tag that hangs on nothing yet opens the form for noting its part."""
    typed = visit.path("number")
    if not typed.isdecimal() or len(typed) > 6:
        raise KeyError(words.NO_TAG.format(typed=typed))
    if not visit.name:
        if visit.jobs.only:
            return RedirectResponse(f"{Addresses(visit.jobs.only).root}/tag/{int(typed)}", status_code=303)
        jobs = tuple((info.name, f"{Addresses(info.folder.name).root}/tag/{int(typed)}") for info in visit.jobs.infos())
        return page(visit, "which_job.html", WhichJobPage(number=typed, jobs=jobs), sheet=words.SHEETS["tags"])
    note = visit.snapshot.tag_index.get(int(typed))
    return RedirectResponse(visit.at.part(note.line) if note else visit.at.note(tag=str(int(typed))), status_code=303)
