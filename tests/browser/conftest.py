"""A real Chromium on a real server over a copy of the demo engine's readings. Skipped with a sentence where there is none."""

from __future__ import annotations

import os
import shutil
import threading
import time
from pathlib import Path

import pytest
import uvicorn

from gudgeon.web.app import create_app
from gudgeon.web.serving import listening
from tests.web.conftest import build_job

QUIET = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync"]  # fmt: skip
PHONE = {"width": 390, "height": 844}
DESK = {"width": 1280, "height": 900}


def chromium() -> str:
    return (
        os.environ.get("CHROMIUM")
        or shutil.which("chromium")
        or shutil.which("chromium-browser")
        or shutil.which("google-chrome")
        or ""
    )


@pytest.fixture(scope="session")
def browser():
    path = chromium()
    if not path:
        sentence = "No Chromium was found; install it, or name it in CHROMIUM, to drive the pages in a browser."
        if os.environ.get("GUDGEON_NO_SKIPS") == "1":
            pytest.fail(sentence)
        pytest.skip(sentence)
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        launched = play.chromium.launch(executable_path=path, args=QUIET)
        yield launched
        launched.close()


@pytest.fixture(scope="session")
def built(tmp_path_factory) -> Path:
    folder = tmp_path_factory.mktemp("browser") / "withy"
    build_job(folder)
    return folder


@pytest.fixture
def place(built, tmp_path) -> Path:
    return Path(shutil.copytree(built, tmp_path / "withy"))


@pytest.fixture
def site(place):
    listener = listening("127.0.0.1", 0)
    server = uvicorn.Server(uvicorn.Config(create_app(place), log_level="warning"))
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.02)
    yield f"http://127.0.0.1:{listener.getsockname()[1]}"
    server.should_exit = True
    thread.join(10)


class Watched:
    """What a page complained about."""

    def __init__(self, page) -> None:
        self.complaints: list[str] = []
        page.on("console", lambda message: message.type in ("error", "warning") and self.complaints.append(message.text))
        page.on("pageerror", lambda fault: self.complaints.append(str(fault)))


def open_page(browser, size):
    context = browser.new_context(viewport=size, has_touch=size is PHONE)
    page = context.new_page()
    page.set_default_timeout(90_000)  # the first reckoning on a new machine compiles its loops
    page.watched = Watched(page)
    return context, page


@pytest.fixture
def phone(browser, site):  # noqa: ARG001  the page closes before its server
    context, page = open_page(browser, PHONE)
    yield page
    complaints = page.watched.complaints
    context.close()
    assert not complaints


@pytest.fixture(params=[PHONE, DESK], ids=["390 px", "1280 px"])
def page(request, browser, site):  # noqa: ARG001
    context, made = open_page(browser, request.param)
    yield made
    complaints = made.watched.complaints
    context.close()
    assert not complaints
