"""One visit to a page: who came, to which job, with what form; and how a page and its form answer."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response

from gudgeon.jobfile import JobFault
from gudgeon.web import people, words
from gudgeon.web.addresses import Addresses
from gudgeon.web.forms import Form, form_of
from gudgeon.web.jobs import Jobs
from gudgeon.web.pairing import Pairing
from gudgeon.web.telling import Teller
from gudgeon.workbench.faults import Refused

if TYPE_CHECKING:
    from gudgeon.workbench.job import Job


@dataclass(frozen=True, slots=True)
class Visit:
    """Everything a view may ask of a request."""

    request: Request
    jobs: Jobs
    pairing: Pairing | None
    name: str
    person: people.Person
    form: Form = Form()
    fault: str = ""

    @property
    def job(self) -> Job:
        """The job of this address. Raises UnknownJob."""
        return self.jobs.named(self.name)

    @property
    def at(self) -> Addresses:
        """The job's addresses."""
        return Addresses(self.name)

    @property
    def tell(self) -> Teller:
        """Numbers as this person reads them."""
        return Teller(self.person.units, self.job.snapshot().aims.currency if self.name else "")

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


def answer(show: Show | None, act: Act | None = None) -> Endpoint:
    """An endpoint from a view that shows and one that acts. When the act is refused the page is shown again with the
    sentence and everything that was typed."""

    async def endpoint(request: Request) -> Response:
        visit = visit_of(request)
        if request.method == "POST" and act is not None:
            visit = replace(visit, form=await form_of(request))
            return await run_in_threadpool(_acted, visit, show, act)
        assert show is not None
        response = await run_in_threadpool(show, visit)
        if people.SAID in request.cookies and response.status_code == 200 and request.method == "GET":
            response.delete_cookie(people.SAID, samesite="strict", httponly=True)
        return response

    return endpoint


def _acted(visit: Visit, show: Show | None, act: Act) -> Response:
    try:
        response = act(visit)
    except (Refused, JobFault, ValueError) as fault:
        status = 409 if type(fault).__name__ == "Moved" else 422
        if wants_json(visit.request) or show is None:
            return JSONResponse({"sentence": str(fault)}, status_code=status)
        shown = show(replace(visit, fault=str(fault)))
        shown.status_code = status
        return shown
    if visit.who and not visit.person.name:
        people.keep(response, name=visit.who, units=visit.person.units)
    return response


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
