"""Which hole ran on which shaft: from the fits that systems declare, else from the words and the number of the instance."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from gudgeon.engine.place import FeatureKey
from gudgeon.engine.system import Feature, System
from gudgeon.metrology.remarks import pairs as pairs_by_words
from gudgeon.reckoning.mates import FITS, FitHabit, Pair


def pairs_of(features: Mapping[FeatureKey, Feature], systems: Sequence[System]) -> list[Pair]:
    """All pairs of a job. A fit across two systems belongs to the one that declares it."""
    found: dict[tuple[FeatureKey, FeatureKey], Pair] = {}
    for system in systems:
        for fit in system.fits:
            for hole, shaft in _numbered(fit.hole, fit.shaft, features):
                habit = _habit(features[hole], features[shaft])
                if habit is not None and fit.purpose == "running":
                    found[hole, shaft] = Pair(hole=hole, shaft=shaft, habit=habit)
    for shaft, hole in pairs_by_words(features):
        habit = _habit(features[hole], features[shaft])
        if habit is not None:
            found.setdefault((hole, shaft), Pair(hole=hole, shaft=shaft, habit=habit))
    return list(found.values())


def _habit(hole: Feature, shaft: Feature) -> FitHabit | None:
    return FITS.get((hole.family, shaft.family))


def _numbered(
    hole: tuple[str, str], shaft: tuple[str, str], features: Mapping[FeatureKey, Feature]
) -> list[tuple[FeatureKey, FeatureKey]]:
    """Pairs of the named features on one instance ("exhaust 1": guide and stem), else on instances of the same number."""
    holes = [key for key in features if (features[key].part, features[key].name) == hole]
    shafts = [key for key in features if (features[key].part, features[key].name) == shaft]
    found = []
    for each in holes:
        alike = [key for key in shafts if _number(key) == _number(each)]
        own = [key for key in alike if key.item == each.item]
        if own or alike:
            found.append((each, (own or alike)[0]))
    return found


def _number(key: FeatureKey) -> str:
    return " ".join(re.findall(r"\d+", key.item))
