"""What can be told of a feature from its words alone, where no system describes it: hole or shaft, family of sizes, material.

The words are the trade's general ones (bore, journal, stem, bush, clearance ...). A guess is always said to be one.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache

from gudgeon.engine.origin import Origin
from gudgeon.engine.place import FeatureKey, Place
from gudgeon.engine.system import Feature, Level, WearPlace

FeatureOf = Callable[[str, str], Feature | None]

GUESSED = "guessed from its words"

# Order matters: the first row whose pattern is found in "part feature" wins.
# pattern, wear, family, rework, material
_SHAPES: tuple[tuple[str, str, str, str, str], ...] = (
    (r"pitches|flank angle|thread", "none", "thread", "", "steel"),
    (r"span over|over pins|over wires|root diameter|tooth thickness", "takes", "gear", "", "steel"),
    (r"gear.*outside diameter", "takes", "gear", "", "steel"),
    (r"centre distance|center distance", "none", "centre distance", "", "grey cast iron"),
    (r"clearance|\bgap\b|\blash\b|backlash|\bplay\b|\bfloat\b|\blift\b|run-?out|\bwear\b|\bstep\b|ridge|\bpits?\b|scratch|score"
     r"|out.of.round|taper|crush|nip", "adds", "gap", "", ""),
    (r"free length", "takes", "spring length", "", "steel"),
    (r"\bwire\b", "none", "wire", "", "steel"),
    (r"\bball\b", "takes", "ball", "", "steel"),
    (r"guide", "adds", "guide", "bushed", "grey cast iron"),
    (r"groove width|slot width|keyway", "adds", "ring width", "", ""),
    (r"\bbush(ing)?\b|bearing.*\b(bore|diameter|inside)\b|\bcam\b.*\bbore\b", "adds", "bush", "bushed", "bronze"),
    (r"(cylinder|liner|sleeve).*\b(bore|diameter)\b|bore diameter", "adds", "bore", "bored over", "grey cast iron"),
    (r"\bbore\b|\bhole\b|inside diameter|\beye\b", "adds", "hole", "bushed", ""),
    (r"stem", "takes", "stem", "", "steel"),
    (r"skirt|piston.*diameter|top land|crown diameter", "takes", "piston", "", "grey cast iron"),
    (r"(cam|lay).*journal|cam ?shaft", "takes", "shaft", "ground under", "steel"),
    (r"journal|crank ?pin.*diameter|\bmain\b.*diameter", "takes", "journal", "ground under", "steel"),
    (r"\bpin\b.*diameter|(wrist|gudgeon|piston) pin", "takes", "pin", "", "steel"),
    (r"(shaft|spindle|tappet|push rod|roller|plunger|trunnion|collar).*diameter|\bshaft\b", "takes", "shaft",
     "ground under", "steel"),
    (r"ring.*width|key.*width", "takes", "ring width", "", ""),
    (r"radial|ring.*thickness", "takes", "ring thickness", "", "grey cast iron"),
    (r"valve.*head|seat|port", "none", "valve head", "", ""),
    (r"diameter", "takes", "shaft", "", "steel"),
)  # fmt: skip

_LEVELS: tuple[tuple[WearPlace, str], ...] = (
    (
        "unworn",
        r"unworn|(below|above|under) (the )?(rings?|travel|ring travel)\b|above (the )?ridge|keeper end|boss end"
        r"|under (the )?collar|fillet|end of (the )?(pin|shaft)"
        r"|outside (the )?(roller|bearing|travel)|never ran|out of (the )?(bearing|guide)"
        r"|beyond (the )?(guide|bearing)|shoulder|top land",
    ),
    (
        "most",
        r"top of (ring )?travel|(just )?(below|under) (the )?ridge|top of (the )?guide|head end|\brod\b|pin wear|worn|loaded",
    ),
    ("little", r"bottom of (ring )?travel|unloaded|underside|ridge|least"),
    ("some", r"middle|centre|center|mid\b"),
)


def words_of(key: FeatureKey) -> str:
    """Part and feature in plain small letters."""
    return _words(key.part, key.feature)


@lru_cache(maxsize=8192)
def _words(part: str, feature: str) -> str:
    return " ".join(f"{part} {feature}".replace("_", " ").lower().split())


def guessed(key: FeatureKey, dimension: str = "length") -> Feature:
    """A feature's description from its words; wear "none" and no family where they say nothing."""
    base = Feature(
        part=key.part,
        name=key.feature,
        title=key.feature,
        dimension=dimension,
        spread_origin=Origin("E", GUESSED),
        how=GUESSED,
    )
    if dimension != "length":
        return base
    words = words_of(key)
    for pattern, wear, family, rework, material in _SHAPES:
        if re.search(pattern, words):
            return replace(base, wear=wear, family=family, rework=rework, material=material)  # type: ignore[arg-type]
    return replace(base, family="length")


def described(feature_of: FeatureOf, key: FeatureKey, dimension: str = "length") -> Feature:
    """The system's description of a feature, with what it leaves open filled in from the words; or the guess."""
    own = guessed(key, dimension)
    known = feature_of(key.part, key.feature)
    if known is None:
        return own
    return replace(
        known, family=known.family or own.family, rework=known.rework or own.rework, material=known.material or own.material
    )


def wear_place(feature: Feature, place: Place, note: str = "") -> WearPlace:
    """How much of the feature's wear to expect at a spot: from the levels of its description, then from the words alone."""
    said = [" ".join(text.replace("_", " ").lower().split()) for text in (place.station, note) if text]
    if not said:
        return "unknown"
    for text in said:
        level = _level(feature.levels, text)
        if level is not None:
            return level.wear
    return next((wear for text in said if (wear := _wear_by_words(text)) != "unknown"), "unknown")


@lru_cache(maxsize=4096)
def _wear_by_words(text: str) -> WearPlace:
    return next((wear for wear, pattern in _LEVELS if re.search(pattern, text)), "unknown")


def _level(levels: tuple[Level, ...], text: str) -> Level | None:
    exact = next((level for level in levels if text in (level.name.lower(), *(word.lower() for word in level.words))), None)
    if exact or text.isdigit():
        return exact
    inside = [
        (len(word), level) for level in levels for word in (level.name.lower(), *map(str.lower, level.words)) if word in text
    ]
    return max(inside, key=lambda pair: pair[0])[1] if inside else None
