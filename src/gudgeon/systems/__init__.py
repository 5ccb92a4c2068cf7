"""The systems of an engine, one room each. This list is the only place that names them."""

from __future__ import annotations

from gudgeon.engine.naming import feature_finder
from gudgeon.engine.system import Feature, System
from gudgeon.systems import (
    bearings,
    camshaft,
    compression,
    cooling,
    crankshaft,
    cylinders,
    fasteners,
    flywheel,
    gears,
    governor,
    ignition,
    intake,
    oiling,
    pivots,
    valves,
)

ALL: tuple[System, ...] = (
    cylinders.SYSTEM,
    bearings.SYSTEM,
    crankshaft.SYSTEM,
    camshaft.SYSTEM,
    valves.SYSTEM,
    gears.SYSTEM,
    pivots.SYSTEM,
    compression.SYSTEM,
    ignition.SYSTEM,
    intake.SYSTEM,
    flywheel.SYSTEM,
    governor.SYSTEM,
    cooling.SYSTEM,
    oiling.SYSTEM,
    fasteners.SYSTEM,
)


class UnknownSystem(LookupError):
    """No system has that key; the sentence lists those that there are."""


def system_named(key: str) -> System:
    """The system of a key, without regard to case. Raises UnknownSystem."""
    for system in ALL:
        if system.key == key.strip().lower():
            return system
    raise UnknownSystem(f"No system is called “{key}”; the systems are {', '.join(system.key for system in ALL)}.")


def feature_named(part: str, feature: str) -> Feature | None:
    """The feature that people call so on a kind of part, by its name or another word for it, without regard to case."""
    return _FIND(part, feature)


_FIND = feature_finder(ALL)
