"""Which feature people mean by the words they write: its name, another word for it, or its name with a size after it."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

from gudgeon.engine.system import Feature, System

_SIZE = re.compile(
    r"^(?P<name>.*\b(?:at|over|of))\s+(?P<size>[-+]?[\d./ ]*\d[\d./ ]*)"
    r"\s*(?P<unit>in|mm|\"|deg|degrees?|°|teeth|pitches|threads)?$"
)


def plain_words(words: str) -> str:
    """Small letters, single spaces, no underscores: two ways of writing that agree in this are one name."""
    return " ".join(words.lower().replace("_", " ").split())


def size_in_name(feature: str) -> tuple[str, float, str] | None:
    """Name, figure and unit of a name with a size in it ("force at 2 1/4 in": "force at", 2.25, "in"; "span over 4 teeth":
    "span over", 4, "teeth"); None without one.

    The unit is "" where none was written; degrees of any writing come back as "deg", inch marks as "in".
    """
    found = _SIZE.match(plain_words(feature))
    if found is None:
        return None
    try:
        figure = sum(_figure(piece) for piece in found["size"].split())
    except (ValueError, ZeroDivisionError):
        return None
    unit = found["unit"] or ""
    return found["name"], figure, "deg" if unit.startswith(("deg", "°")) else unit.replace('"', "in")


def _figure(piece: str) -> float:
    over, _, under = piece.partition("/")
    return float(over) / (float(under) if under else 1.0)


def feature_finder(systems: Iterable[System]) -> Callable[[str, str], Feature | None]:
    """(part, feature) -> the description that one of the systems gives it, or None.

    Names come before other words for a feature, and those before names with a size in them.
    """
    index: dict[tuple[str, str], Feature] = {}
    sized: dict[tuple[str, str], Feature] = {}
    features = [feature for system in systems for feature in system.features]
    for feature in features:
        for word in feature.aliases:
            index.setdefault((plain_words(feature.part), plain_words(word)), feature)
    for feature in features:
        index[plain_words(feature.part), plain_words(feature.name)] = feature
        if feature.sized:
            for word in (feature.name, *feature.aliases):
                sized[plain_words(feature.part), plain_words(word)] = feature

    def find(part: str, feature: str) -> Feature | None:
        kind, name = plain_words(part), plain_words(feature)
        known = index.get((kind, name))
        if known is None and sized and (split := size_in_name(name)) is not None:
            return sized.get((kind, split[0]))
        return known

    return find
