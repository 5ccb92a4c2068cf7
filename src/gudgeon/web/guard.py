"""What stands between the network and the pages: host, origin, sizes, and the headers that keep foreign script out."""

from __future__ import annotations

import re
from collections.abc import Awaitable, Callable, Mapping
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from gudgeon.web import words

LOCAL_NAMES = frozenset({"localhost", "127.0.0.1", "[::1]", "::1"})
MOST_BYTES = 80_000_000
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'; manifest-src 'self'"
)
HEADERS: Mapping[str, str] = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "x-frame-options": "DENY",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "geolocation=(), microphone=()",
}


class Guard:
    """Middleware. ``names`` are the host names the workbench answers to (against rebinding: a foreign name that resolves to
    this machine is refused). A change is taken only from our own pages: ``Sec-Fetch-Site`` must say so where a browser sends
    it, and ``Origin`` must be our own host where it is sent; a client that sends neither is no browser."""

    def __init__(self, app: ASGIApp, *, names: frozenset[str]) -> None:
        self.app, self.names = app, names

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse, or pass on with the headers."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        if refusal := self._refusal(scope, headers):
            await PlainTextResponse(refusal[1], status_code=refusal[0], headers=dict(HEADERS))(scope, receive, send)
            return
        keep = "no-cache" if scope["path"].startswith("/static/") else "no-store"
        await self.app(scope, _limited(receive), _with_headers(send, keep))

    def _refusal(self, scope: Scope, headers: Headers) -> tuple[int, str] | None:
        host = headers.get("host", "")
        if host_name(host) not in self.names:
            return 421, words.NOT_THIS_HOST
        if scope["method"] not in ("GET", "HEAD"):
            if headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
                return 403, words.NOT_FROM_HERE
            origin = headers.get("origin")
            if origin is not None and urlsplit(origin).netloc.lower() != host.lower():
                return 403, words.NOT_FROM_HERE
        length = headers.get("content-length", "0")
        if not length.isdigit() or int(length) > MOST_BYTES:
            return 413, words.TOO_MUCH.format(most=MOST_BYTES // 1_000_000)
        return None


def host_name(host: str) -> str:
    """The name in a Host header, without its port, in lower case; "" for what is no host at all."""
    found = re.fullmatch(r"(\[[0-9a-fA-F:.]+\]|[A-Za-z0-9._-]+)(?::\d{1,5})?", host.strip())
    return found[1].lower() if found else ""


class TooMuch(Exception):
    """More bytes came than the page takes."""


def _limited(receive: Receive) -> Receive:
    taken = 0

    async def limited() -> Message:
        nonlocal taken
        message = await receive()
        taken += len(message.get("body", b""))
        if taken > MOST_BYTES:
            raise TooMuch
        return message

    return limited


def _with_headers(send: Send, keep: str) -> Callable[[Message], Awaitable[None]]:
    async def with_headers(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers.setdefault(name, value)
            headers.setdefault("cache-control", keep)
        await send(message)

    return with_headers
