"""The devices that were let in, kept beside the job or in the shed, so that they need no new code after a restart.

What is kept of a device is its name, the day, and the SHA-256 of its token: the token itself is known to the device alone. The
file is no part of the history; deleting it means that every device pairs again.
"""

from __future__ import annotations

import contextlib
import json
import os
from dataclasses import asdict, dataclass
from pathlib import Path

from gudgeon.jobfile import layout

NAME = "devices.json"


@dataclass(frozen=True, slots=True)
class Device:
    """A device that was let in; ``since`` is the moment, in seconds since 1970."""

    name: str
    digest: str
    since: float


class DeviceList:
    """The list of one job's folder, or of one shed."""

    def __init__(self, place: Path | str) -> None:
        place = Path(place)
        inside = layout.CACHE if (place / layout.DATABASE).is_file() else ".gudgeon"
        self.path = place / inside / NAME

    def read(self) -> list[Device]:
        """The devices; none where the file is missing or is not what was written."""
        try:
            rows = json.loads(self.path.read_text("utf-8"))
            return [Device(str(row["name"]), str(row["digest"]), float(row["since"])) for row in rows]
        except (OSError, ValueError, TypeError, KeyError):
            return []

    def keep(self, devices: list[Device]) -> None:
        """Put the list in the old one's place. Where nothing can be written, devices pair again after a restart."""
        with contextlib.suppress(OSError):
            self.path.parent.mkdir(exist_ok=True)
            layout.write_durably(self.path, json.dumps([asdict(device) for device in devices]).encode("utf-8"))
            os.chmod(self.path, 0o600)  # noqa: PTH101
