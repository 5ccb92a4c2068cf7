"""The systems of an engine, one room each. This list is the only place that names them."""

from __future__ import annotations

from gudgeon.engine.system import Feature, System
from gudgeon.systems import cylinders

ALL: tuple[System, ...] = (cylinders.SYSTEM,)


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
    return _BY_NAME.get((_plain(part), _plain(feature)))


def _plain(words: str) -> str:
    return " ".join(words.lower().replace("_", " ").split())


def _index() -> dict[tuple[str, str], Feature]:
    index: dict[tuple[str, str], Feature] = {}
    for system in ALL:
        for feature in system.features:
            for alias in feature.aliases:
                index.setdefault((_plain(feature.part), _plain(alias)), feature)
        for feature in system.features:
            index[_plain(feature.part), _plain(feature.name)] = feature
    return index


_BY_NAME = _index()
