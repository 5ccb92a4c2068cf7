"""One visit to a page: who came, to which job, with what form; and how a page and its form answer."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from dataclasses import dataclass, replace
from functools import cached_property
from importlib import import_module
from typing import TYPE_CHECKING

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response

from gudgeon.engine.history import Entry
from gudgeon.jobfile import JobFault, Moved
from gudgeon.web import people, words
from gudgeon.web.addresses import Addresses
from gudgeon.web.forms import Form, sent_form
from gudgeon.web.jobs import Jobs
from gudgeon.web.pairing import Pairing
from gudgeon.web.telling import Teller
from gudgeon.workbench.faults import Refused
from gudgeon.workbench.standing import in_a_hurry

if TYPE_CHECKING:
    from gudgeon.engine.snapshot import Snapshot
    from gudgeon.workbench.job import Job


@dataclass(frozen=True)
class Visit:
    """Everything a view may ask of a request."""

    request: Request
    jobs: Jobs
    pairing: Pairing | None
    name: str
    person: people.Person
    form: Form = Form()
    fault: str = ""
    crossed: Entry | None = None

    @cached_property
    def job(self) -> Job:
        """The job of this address. Raises UnknownJob."""
        return self.jobs.named(self.name)

    @cached_property
    def snapshot(self) -> Snapshot:
        """What stands now, looked up once for the whole page."""
        return self.job.snapshot()

    @cached_property
    def at(self) -> Addresses:
        """The job's addresses."""
        return Addresses(self.name)

    @cached_property
    def tell(self) -> Teller:
        """Numbers as this person reads them."""
        return Teller(self.person.units, self.snapshot.aims.currency if self.name else "")

    def path(self, name: str) -> str:
        """A piece of the address."""
        return str(self.request.path_params.get(name, ""))

    def asked(self, name: str) -> str:
        """A word from behind the question mark."""
        return self.request.query_params.get(name, "")[:200]

    def whole(self, name: str) -> int | None:
        """A whole number from behind the question mark."""
        typed = self.asked(name)
        return int(typed) if typed.isdecimal() and len(typed) < 7 else None

    @property
    def who(self) -> str:
        """The name that changes are written down under: the device's, or the one typed with this form."""
        return self.person.name or people.cleaned(self.form.text("who"))

    def need_name(self) -> str:
        """The name, or Refused where nobody is named."""
        if not self.who:
            raise Refused(words.NO_NAME)
        return self.who


Show = Callable[[Visit], Response]
Act = Callable[[Visit], Response]
Endpoint = Callable[[Request], Awaitable[Response]]


def view(name: str) -> Callable[[Visit], Response]:
    """A view by the name of its module and function, "engine_page.show". The module is imported when first asked for, so
    that the workbench is open before the heavy rooms are loaded."""
    module, _, function = name.partition(".")

    def called(visit: Visit) -> Response:
        found: Callable[[Visit], Response] = getattr(import_module(f"gudgeon.web.{module}"), function)
        return found(visit)

    return called


def answer(show: str, act: str = "") -> Endpoint:
    """An endpoint from a view that shows and one that acts. When the act is refused the page is shown again with the
    sentence and everything that was typed; when somebody else changed the same thing meanwhile, with both."""
    shows, acts = view(show), view(act) if act else None

    async def endpoint(request: Request) -> Response:
        visit = visit_of(request)
        if request.method == "POST" and acts is not None:
            async with sent_form(request) as form:
                return await run_in_threadpool(_acted, replace(visit, form=form), shows, acts)
        response = await run_in_threadpool(_shown, visit, shows)
        if people.SAID in request.cookies and response.status_code == 200 and request.method == "GET":
            response.delete_cookie(people.SAID, samesite="strict", httponly=True)
        return response

    return endpoint


def _shown(visit: Visit, show: Show) -> Response:
    with in_a_hurry(visit.jobs.patience):
        return show(visit)


def _acted(visit: Visit, show: Show, act: Act) -> Response:
    try:
        response = act(visit)
    except Moved as moved:
        return _crossed(visit, show, moved)
    except (Refused, JobFault, ValueError) as fault:
        return _refused(visit, show, str(fault), 422)
    if visit.who and not visit.person.name:
        people.keep(response, name=visit.who, units=visit.person.units)
    return response


def _refused(visit: Visit, show: Show, sentence: str, status: int) -> Response:
    if wants_json(visit.request):
        return JSONResponse({"sentence": sentence}, status_code=status)
    shown = _shown(replace(visit, fault=sentence), show)
    shown.status_code = status
    return shown


def _crossed(visit: Visit, show: Show, moved: Moved) -> Response:
    """Somebody else wrote to the same thing since this page was filled: both are shown, and the person chooses."""
    entry = moved.entries[-1]
    sentence = words.CROSSED.format(person=entry.person, at=visit.tell.moment(entry.at))
    if wants_json(visit.request):
        return JSONResponse({"sentence": sentence, "theirs": told(entry), "seen": visit.job.file.head()}, status_code=409)
    shown = _shown(replace(visit, fault=sentence, crossed=entry), show)
    shown.status_code = 409
    return shown


def told(entry: Entry) -> dict[str, str]:
    """An entry of somebody else's for the choice between theirs and ours."""
    typed = str(entry.body.get("reading", ""))
    return {"id": entry.id, "typed": typed, "unit": str(entry.body.get("unit", "")), "person": entry.person, "at": entry.at}


def wants_json(request: Request) -> bool:
    """Did one of our own scripts send this?"""
    return "application/json" in request.headers.get("accept", "")


def visit_of(request: Request) -> Visit:
    """The visit of a request."""
    jobs: Jobs = request.app.state.jobs
    name = str(request.path_params.get("job", ""))
    if name:
        jobs.named(name)
    return Visit(request, jobs, request.app.state.pairing, name, people.person_of(request))


def go(address: str, sentence: str = "") -> Response:
    """Send the reader on, with a sentence for the next page."""
    response = RedirectResponse(address, status_code=303)
    if sentence:
        people.say_once(response, sentence)
    return response
