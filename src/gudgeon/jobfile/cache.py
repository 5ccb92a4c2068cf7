"""Thumbnails and reckonings kept at hand. Nothing is lost when they go, so they are not forced to disk."""

from __future__ import annotations

import contextlib
import re
import uuid
from pathlib import Path

_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*(/[A-Za-z0-9][A-Za-z0-9._-]*)*")


class Cache:
    """The disposable folder of one job."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def _path(self, name: str) -> Path:
        if not _NAME.fullmatch(name):
            raise ValueError(f"“{name}” cannot name something in the cache; letters, digits, '.', '_', '-' and '/' can.")
        return self.folder / name

    def read(self, name: str) -> bytes | None:
        """What was kept under a name, or None."""
        try:
            return self._path(name).read_bytes()
        except OSError:
            return None

    def keep(self, name: str, data: bytes) -> None:
        """Keep bytes under a name, replacing at one stroke. A full or read-only disk only means that nothing is kept."""
        path = self._path(name)
        beside = path.with_name(f".{uuid.uuid4().hex}.part")
        with contextlib.suppress(OSError):
            path.parent.mkdir(parents=True, exist_ok=True)
            try:
                beside.write_bytes(data)
                beside.replace(path)
            finally:
                beside.unlink(missing_ok=True)
