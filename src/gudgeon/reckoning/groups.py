"""Like features put together: the siblings whose drawing called for one size."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.place import FeatureKey, Place
from gudgeon.engine.reading import Reading
from gudgeon.engine.system import Feature
from gudgeon.metrology.guess import wear_place

INCH = 0.0254
APART = 0.008 * INCH
"""Instances whose sizes stand further apart than this were not made (or re-sized) to one size, however worn."""
AT_ODDS = 0.003 * INCH
"""Unworn spots of one instance that stand further apart than this contradict each other."""
DOUBTED_PLACE = "said to be unworn"
"""The place of a spot whose words say that nothing ran there, and whose neighbour of the same kind says otherwise."""
SETS = "spring length"
"""A spring sets by far more than any wear or re-sizing: however far apart, its like stay together."""
ALONE = ("thread", "gear")
"""Families whose instances are different things under one name."""

Keys = tuple[FeatureKey, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Group:
    """Instances taken as siblings.

    Attributes
    ----------
    sort : part, name of the instances without their number, feature; groups of one part and feature were split because they
        are called differently ("intake", "exhaust") or stand too far apart to be one size.
    keys, estimates : the instances, and the estimates of each.
    places : how worn each estimate's spot is, as far as its words tell.
    feature : the description they share.
    """

    sort: tuple[str, str, str]
    keys: Keys
    estimates: tuple[tuple[Estimate, ...], ...]
    places: tuple[tuple[str, ...], ...]
    feature: Feature

    @property
    def middle(self) -> float:
        """The size they stand about [SI]."""
        return median([estimate.value for instance in self.estimates for estimate in instance])

    @property
    def has_size(self) -> bool:
        """Did a drawing call for a size of it (gaps follow from other sizes, threads from their standard)?"""
        return self.estimates[0][0].dimension == "length" and self.feature.family not in ("gap", "thread")


def median(values: Sequence[float]) -> float:
    """The middle value."""
    ordered = sorted(values)
    half = len(ordered) // 2
    return ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2


@lru_cache(maxsize=8192)
def stem_of(item: str) -> str:
    """What is left of an item's name without its number: "exhaust" of "exhaust 3"."""
    return " ".join(re.sub(r"\d+", " ", item).split()).lower()


def groups_of(
    estimates: Mapping[FeatureKey, tuple[Estimate, ...]],
    features: Mapping[FeatureKey, Feature],
    readings: Mapping[FeatureKey, Sequence[Reading]],
    *,
    kept: Mapping[Keys, Group] | None = None,
) -> list[Group]:
    """Groups of siblings among all features.

    ``kept`` are the groups of an earlier call; one whose estimates are the very same objects is taken over.
    """
    sorts: dict[tuple[str, str, str, str], list[FeatureKey]] = {}
    for key, spots in estimates.items():
        name = key.item if features[key].family in ALONE else stem_of(key.item)
        sorts.setdefault((key.part, name, key.feature, spots[0].dimension), []).append(key)
    found = []
    for (part, name, feature, dimension), keys in sorts.items():
        apart = dimension == "length" and features[keys[0]].family != SETS
        for cluster in _clusters(keys, estimates) if apart else [tuple(keys)]:
            old = kept.get(cluster) if kept else None
            if old is not None and _unchanged(old, cluster, estimates, features):
                found.append(old)
            else:
                found.append(_group((part, name, feature), cluster, estimates, features, readings))
    return found


def _unchanged(
    old: Group, keys: Keys, estimates: Mapping[FeatureKey, tuple[Estimate, ...]], features: Mapping[FeatureKey, Feature]
) -> bool:
    same = all(estimates[key] is spots for key, spots in zip(keys, old.estimates, strict=True))
    return same and features[keys[0]] is old.feature


def _group(
    sort: tuple[str, str, str],
    keys: Keys,
    estimates: Mapping[FeatureKey, tuple[Estimate, ...]],
    features: Mapping[FeatureKey, Feature],
    readings: Mapping[FeatureKey, Sequence[Reading]],
) -> Group:
    feature = features[keys[0]]
    places = []
    for key in keys:
        notes: dict[Place, str] = {}
        for reading in readings.get(key, ()):
            if reading.note:
                notes.setdefault(reading.place, reading.note)
        places.append(
            _agreeing(estimates[key], [_place(feature, each.place, notes.get(each.place, "")) for each in estimates[key]])
        )
    return Group(sort=sort, keys=keys, estimates=tuple(estimates[key] for key in keys), places=tuple(places), feature=feature)


def contradict(estimates: Sequence[Estimate], places: Sequence[str]) -> bool:
    """Do spots of one instance where nothing should have run stand further apart than reading and making explain?"""
    unworn = [each for each, place in zip(estimates, places, strict=True) if place in ("unworn", DOUBTED_PLACE)]
    if len(unworn) < 2:
        return False
    values = [each.value for each in unworn]
    return max(values) - min(values) > max(AT_ODDS, 8 * max(each.own for each in unworn))


def _agreeing(estimates: Sequence[Estimate], places: Sequence[str]) -> tuple[str, ...]:
    """Places as their words tell, but that none is taken for unworn where those that should be contradict each other."""
    if not contradict(estimates, places):
        return tuple(places)
    return tuple(DOUBTED_PLACE if place == "unworn" else place for place in places)


def _place(feature: Feature, place: Place, note: str) -> str:
    return feature.wear if feature.wear in ("none", "either") else wear_place(feature, place, note)


def _clusters(keys: Sequence[FeatureKey], estimates: Mapping[FeatureKey, tuple[Estimate, ...]]) -> list[Keys]:
    """Split where sorted sizes leave a gap that neither wear nor reading explains; order of the keys is kept within."""
    if len(keys) < 2:
        return [tuple(keys)]
    middle = {key: median([each.value for each in estimates[key]]) for key in keys}
    ordered = sorted(keys, key=middle.__getitem__)
    if middle[ordered[-1]] - middle[ordered[0]] <= APART:
        return [tuple(keys)]
    doubt = median([max(each.uncertainty for each in estimates[key]) for key in keys])
    clusters = [[ordered[0]]]
    for before, after in pairwise(ordered):
        if middle[after] - middle[before] > max(APART, 6 * doubt):
            clusters.append([])
        clusters[-1].append(after)
    return [tuple(key for key in keys if key in cluster) for cluster in clusters]
