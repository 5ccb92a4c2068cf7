"""The devices that were let in to a job or a shed over the local network."""

from __future__ import annotations

from pathlib import Path

from gudgeon.jobfile import Device, DeviceList


def devices_of(place: Path | str) -> DeviceList:
    """The list of a job's folder or of a shed: ``read`` and ``keep``."""
    return DeviceList(place)


__all__ = ["Device", "DeviceList", "devices_of"]
