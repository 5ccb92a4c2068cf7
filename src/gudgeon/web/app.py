"""The application: its addresses, and what answers when something is wrong."""

from __future__ import annotations

import logging
import socket
import threading
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, suppress
from importlib import import_module
from pathlib import Path

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp, Receive, Scope, Send

from gudgeon.jobfile import JobFault
from gudgeon.web import words
from gudgeon.web.frame import HERE, page
from gudgeon.web.guard import LOCAL_NAMES, MOST_BYTES, Guard, TooMuch
from gudgeon.web.jobs import Jobs, UnknownJob
from gudgeon.web.own_addresses import own_addresses
from gudgeon.web.pairing import COOKIE, Pairing, is_this_machine
from gudgeon.web.visit import answer, visit_of, wants_json
from gudgeon.workbench.devices import devices_of
from gudgeon.workbench.faults import Refused
from gudgeon.workbench.standing import BeingReckoned, in_a_hurry

log = logging.getLogger(__name__)
BOTH = ["GET", "POST"]
VIEWS = (
    "engine_page", "bench_page", "findings_page", "remedies_page", "orders_page", "plan_page", "parts_page", "teardown_page",
    "photo_page", "tags_page", "record_page", "keeping_pages",
)  # fmt: skip
OPEN_TO_ALL = ("/pair", "/static/")


def create_app(
    place: Path | str, *, lan: bool = False, pairing: Pairing | None = None, patience: float | None = None
) -> Starlette:
    """The application over a job's folder, or a shed of jobs.

    ``lan`` lets other devices in, each after typing a one-time code; this machine itself needs none. ``patience`` is how
    long a page waits for a reckoning under way before it shows the last one [s]; None waits for it.
    """
    jobs = Jobs(place, patience=patience)
    pairing = (pairing or Pairing(devices_of(place))) if lan else None

    @asynccontextmanager
    async def lifespan(_: Starlette) -> AsyncIterator[None]:
        if patience is not None:
            threading.Thread(target=warm_up, args=(jobs,), name="warming up", daemon=True).start()
        yield
        jobs.close()

    middleware = [Middleware(Guard, names=_names(lan=lan)), Middleware(Door, pairing=pairing)]
    faults = {
        HTTPException: _http_fault,
        UnknownJob: _missing,
        KeyError: _missing,
        Refused: _refused,
        JobFault: _refused,
        TooMuch: _too_much,
        BeingReckoned: _being_reckoned,
        Exception: _sorry,
    }
    app = Starlette(routes=_routes(), middleware=middleware, exception_handlers=faults, lifespan=lifespan)
    app.state.jobs, app.state.pairing = jobs, pairing
    return app


def _names(*, lan: bool) -> frozenset[str]:
    """The host names to answer to."""
    if not lan:
        return LOCAL_NAMES | {"testserver"}
    host = socket.gethostname().lower()
    return LOCAL_NAMES | {"testserver", host, f"{host}.local", *own_addresses()}


def _routes() -> list[Route | Mount]:
    a = answer
    job = [
        Route("/", a("engine_page.show")),
        Route("/findings", a("findings_page.show")),
        Route("/findings/{system}", a("findings_page.show")),
        Route("/findings/{system}/why", a("findings_page.show_why")),
        Route("/findings/{system}/drawing", a("findings_page.show_drawing")),
        Route("/doubtful", a("findings_page.show_doubtful", "findings_page.answer_doubt"), methods=BOTH),
        Route("/bench", a("bench_page.show")),
        Route("/bench/{system}", a("bench_page.show", "bench_page.take"), methods=BOTH),
        Route("/bench/{system}/sheet.pdf", a("record_page.sheet")),
        Route("/echo", a("bench_page.echo")),
        Route("/fresh", a("engine_page.fresh")),
        Route("/remedies", a("remedies_page.show", "remedies_page.settle"), methods=BOTH),
        Route("/remedies/{system}", a("remedies_page.show", "remedies_page.settle"), methods=BOTH),
        Route("/orders", a("orders_page.show_list")),
        Route("/orders/draft/{key:path}/order.pdf", a("orders_page.draft_paper")),
        Route("/orders/draft/{key:path}/drawing/{number:int}.{kind}", a("orders_page.drawing_file")),
        Route("/orders/draft/{key:path}", a("orders_page.show_draft", "orders_page.send"), methods=BOTH),
        Route("/orders/sent/{id}/order.pdf", a("orders_page.sent_paper")),
        Route("/orders/sent/{id}/inspection.pdf", a("orders_page.return_paper")),
        Route("/orders/sent/{id}/drawing/{number:int}.{kind}", a("orders_page.drawing_file")),
        Route("/orders/sent/{id}", a("orders_page.show_sent", "orders_page.receive"), methods=BOTH),
        Route("/plan", a("plan_page.show", "plan_page.act"), methods=BOTH),
        Route("/plan/picture", a("plan_page.show_picture")),
        Route("/record", a("record_page.show")),
        Route("/record/book.pdf", a("record_page.book")),
        Route("/refused", a("keeping_pages.show_refused", "keeping_pages.mend"), methods=BOTH),
        Route("/outline", a("keeping_pages.show_outline", "keeping_pages.keep_outline"), methods=BOTH),
        Route("/bring-in", a("keeping_pages.show_bring_in", "keeping_pages.bring_in"), methods=BOTH),
        Route("/parts", a("parts_page.show", "parts_page.put_back"), methods=BOTH),
        Route("/parts/note", a("teardown_page.show", "teardown_page.keep"), methods=BOTH),
        Route("/parts/{part}", a("teardown_page.show_part", "teardown_page.act"), methods=BOTH),
        Route("/tags", a("tags_page.show")),
        Route("/tags/tags.pdf", a("tags_page.paper")),
        Route("/tag/{number}", a("tags_page.open_tag")),
        Route("/pictures/{digest}", a("photo_page.bytes_of")),
        Route("/pictures/{digest}/look", a("photo_page.show", "photo_page.act"), methods=BOTH),
    ]
    return [
        Route("/", a("door_pages.show_shed")),
        Route("/who", a("door_pages.show_who", "door_pages.keep_who"), methods=BOTH),
        Route("/pair", a("door_pages.show_pair", "door_pages.pair"), methods=BOTH),
        Route("/patterns", a("patterns_page.show")),
        Route("/tag/{number}", a("tags_page.open_tag")),
        Route("/static/pictures.css", _picture_style),
        Mount("/static", StaticFiles(directory=HERE / "static")),
        Mount("/job/{job}", routes=job),
    ]


def warm_up(jobs: Jobs) -> None:
    """Load what pages need and begin the reckoning, so that it is there when the first person asks."""
    for name in VIEWS:
        import_module(f"gudgeon.web.{name}")
    if jobs.only:
        with suppress(Exception), in_a_hurry(0.0):
            jobs.named(jobs.only).reckoning()


async def _picture_style(_: Request) -> Response:
    from gudgeon.pictures import STYLE

    return Response(STYLE, media_type="text/css", headers={"cache-control": "no-cache"})


class Door:
    """Middleware: with ``pairing``, only this machine and paired devices get past it."""

    def __init__(self, app: ASGIApp, *, pairing: Pairing | None) -> None:
        self.app, self.pairing = app, pairing

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Send a device that is not paired to the form for the code."""
        if scope["type"] == "http" and self.pairing is not None:
            request = Request(scope)
            known = is_this_machine(request) or self.pairing.knows(request.cookies.get(COOKIE, ""))
            if not known and not request.url.path.startswith(OPEN_TO_ALL):
                refusal: Response = RedirectResponse("/pair", status_code=303)
                if request.method != "GET" or wants_json(request):
                    refusal = PlainTextResponse(words.NOT_PAIRED, status_code=401)
                await refusal(scope, receive, send)
                return
        await self.app(scope, receive, send)


async def _fault_page(request: Request, sentence: str, status: int) -> Response:
    """A page that says what is wrong, and repeats what was typed so that it can be taken up again."""
    request.scope.pop("path_params", None)
    typed = getattr(request, "_form", None)
    fields = {name: value for name, value in typed.multi_items() if isinstance(value, str)} if typed is not None else {}

    def show() -> Response:
        return page(
            visit_of(request),
            "fault.html",
            {"sentence": sentence, "fields": fields},
            sheet=words.SHEETS["fault"],
            status=status,
        )

    return await run_in_threadpool(show)


async def _http_fault(request: Request, fault: Exception) -> Response:
    status = fault.status_code if isinstance(fault, HTTPException) else 500
    sentence = words.NO_PAGE if status in (404, 405) else str(getattr(fault, "detail", ""))
    return await _fault_page(request, sentence, status)


async def _missing(request: Request, fault: Exception) -> Response:
    if isinstance(fault, UnknownJob):
        return await _fault_page(request, words.NO_JOB.format(name=fault.args[0]), 404)
    return await _fault_page(request, str(fault.args[0]) if fault.args else words.NO_PAGE, 404)


async def _refused(request: Request, fault: Exception) -> Response:
    return await _fault_page(request, str(fault), 422)


async def _being_reckoned(request: Request, _: Exception) -> Response:
    def show() -> Response:
        return page(visit_of(request), "wait.html", None, sheet=words.SHEETS["wait"])

    return await run_in_threadpool(show)


async def _too_much(request: Request, _: Exception) -> Response:
    return await _fault_page(request, words.TOO_MUCH.format(most=MOST_BYTES // 1_000_000), 413)


async def _sorry(request: Request, fault: Exception) -> Response:
    log.error("a page failed", exc_info=fault)
    return await _fault_page(request, words.SORRY, 500)
