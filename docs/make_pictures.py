"""Make the screenshots of every page, at 390 and 1280 px, into docs/pictures/.

    python docs/make_pictures.py [JOB [PAGE ...]]

Builds the demo job in a temporary folder (or takes a copy of JOB), serves it, and drives Chromium over every page. Needs the
packages of the test group and Chromium (``CHROMIUM`` names it, else /usr/bin/chromium).
"""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
import threading
import time
from pathlib import Path

import uvicorn
from PIL import Image
from playwright.sync_api import Page, sync_playwright

from gudgeon.web.app import create_app
from gudgeon.web.serving import listening

HERE = Path(__file__).parent / "pictures"
SIZES = {"phone": (390, 844), "desk": (1280, 900)}
QUIET = ("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync")  # fmt: skip
PAGES = (
    ("engine", ""), ("findings", "findings"), ("doubtful", "doubtful"), ("bench", "bench"),
    ("reading", "bench/cylinders?block=0"), ("remedies", "remedies"), ("orders", "orders"), ("plan", "plan"),
    ("parts", "parts"), ("record", "record?check=1"), ("refused", "refused"), ("outline", "outline"), ("bring-in", "bring-in"),
)  # fmt: skip
TALLEST = 5200


def demo_job(folder: Path) -> Path:
    """The demo job, built afresh."""
    from gudgeon.demo import build

    build(folder)
    return folder


def served(place: Path) -> tuple[uvicorn.Server, str]:
    """The pages of a job, on a free port."""
    listener = listening("127.0.0.1", 0)
    server = uvicorn.Server(uvicorn.Config(create_app(place), log_level="warning"))
    threading.Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True).start()
    while not server.started:
        time.sleep(0.02)
    return server, f"http://127.0.0.1:{listener.getsockname()[1]}"


def shoot(page: Page, address: str, target: Path) -> None:
    """One page whole, as a PNG of few colours."""
    answer = page.goto(address, wait_until="load")
    if answer is None or not answer.ok:
        raise SystemExit(f"{address} answered {answer.status if answer else 'nothing'}; no picture of it was kept.")
    page.screenshot(path=str(target), full_page=True)
    with Image.open(target) as picture:
        few = picture.convert("RGB").crop((0, 0, picture.width, min(picture.height, TALLEST)))
        few.quantize(64, dither=Image.Dither.NONE).save(target, optimize=True)


def order_pages(page: Page, root: str) -> list[tuple[str, str]]:
    """The addresses of the first order of each kind, where there is one."""
    page.goto(f"{root}orders")
    found = []
    for name, part in (("order", "/orders/draft/"), ("sent", "/orders/sent/")):
        link = page.locator(f'a[href*="{part}"]').first
        if link.count():
            found.append((name, str(link.get_attribute("href"))))
    return found


def main(job: Path | None, only: tuple[str, ...] = ()) -> None:
    """Make all of them, or only those named."""
    HERE.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as scratch, sync_playwright() as play:
        place = Path(shutil.copytree(job, Path(scratch) / job.name)) if job else demo_job(Path(scratch) / "demo-job")
        server, site = served(place)
        root = f"{site}/job/{place.name}/"
        browser = play.chromium.launch(executable_path=os.environ.get("CHROMIUM", "/usr/bin/chromium"), args=list(QUIET))
        for size, (width, height) in SIZES.items():
            context = browser.new_context(viewport={"width": width, "height": height}, has_touch=size == "phone")
            context.add_cookies([{"name": "gudgeon-name", "value": "Ida%20Fenn", "url": site}])
            page = context.new_page()
            pages = [(name, root + path) for name, path in PAGES] + [
                (name, site + path) for name, path in order_pages(page, root)
            ]
            for name, address in [*pages, ("who", f"{site}/who"), ("patterns", f"{site}/patterns")]:
                if only and name not in only:
                    continue
                shoot(page, address, HERE / f"{name}-{size}.png")
            context.close()
        browser.close()
        server.should_exit = True


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else None, tuple(sys.argv[2:]))
