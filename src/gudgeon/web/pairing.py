"""Devices on the local network: each types a one-time code once, and keeps a token of its own after that."""

from __future__ import annotations

import hashlib
import hmac
import secrets
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field

from starlette.requests import HTTPConnection

from gudgeon.workbench.devices import Device, DeviceList

COOKIE = "gudgeon-device"
TRIES, WAIT = 5, 60.0
LIFE = 3600 * 24 * 365


@dataclass
class Pairing:
    """The code that is shown now, and the devices that were let in; ``kept`` holds them through a restart.

    A code works once; a new one takes its place at once. After five wrong codes no code is taken for a minute, whoever
    sends it, so that six digits cannot be tried out.
    """

    kept: DeviceList | None = None
    clock: Callable[[], float] = time.monotonic
    code: str = ""
    devices: dict[str, Device] = field(default_factory=dict)
    last_here: dict[str, float] = field(default_factory=dict)
    _wrong: list[float] = field(default_factory=list)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def __post_init__(self) -> None:
        self.code = self.code or _new_code()
        oldest = time.time() - LIFE
        known = self.kept.read() if self.kept else []
        self.devices |= {device.digest: device for device in known if device.since > oldest}

    def resting(self) -> bool:
        """True while no code is taken, after too many wrong ones."""
        now = self.clock()
        self._wrong = [at for at in self._wrong if now - at < WAIT]
        return len(self._wrong) >= TRIES

    def pair(self, code: str, *, name: str) -> str | None:
        """A new device's token for the right code, else None."""
        with self._lock:
            if self.resting():
                return None
            typed = "".join(letter for letter in code if letter.isalnum())
            if not hmac.compare_digest(typed.encode(), self.code.encode()):
                self._wrong.append(self.clock())
                return None
            self.code = _new_code()
            token = secrets.token_urlsafe(32)
            digest = _digest(token)
            self.devices[digest] = Device(name=name[:60], digest=digest, since=time.time())
            self._keep()
            return token

    def knows(self, token: str) -> bool:
        """Is this the token of a device that was let in?"""
        digest = _digest(token)
        if digest not in self.devices:
            return False
        self.last_here[digest] = time.time()
        return True

    def end(self, digest: str) -> None:
        """End a device's pairing; it has to pair again."""
        with self._lock:
            self.devices.pop(digest, None)
            self._keep()

    def _keep(self) -> None:
        if self.kept:
            self.kept.keep(list(self.devices.values()))


def is_this_machine(connection: HTTPConnection) -> bool:
    """Does the request come from the machine that the workbench runs on?"""
    client = connection.client
    return client is not None and client.host in ("127.0.0.1", "::1", "testclient")


def _new_code() -> str:
    return f"{secrets.randbelow(1_000_000):06d}"


def _digest(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()
