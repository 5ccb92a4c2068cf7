"""Like features put together: the siblings whose drawing called for one size."""

from __future__ import annotations

import re
import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.system import Feature

INCH = 0.0254
APART = 0.008 * INCH
"""Instances whose sizes stand further apart than this were not made (or re-sized) to one size, however worn."""
ALONE = ("thread", "gear")
"""Families whose instances are different things under one name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Instances taken as siblings: their keys, the estimates of each, and the description they share.

    ``sort`` is what they are called together ("crankpin journal diameter"); groups of one sort were split because their sizes
    stand too far apart to be one size.
    """

    sort: tuple[str, str, str]
    keys: tuple[FeatureKey, ...]
    estimates: tuple[tuple[Estimate, ...], ...]
    feature: Feature

    @property
    def name(self) -> str:
        """Part and feature in words."""
        return f"{self.sort[0]} {self.sort[1]} {self.sort[2]}".replace("  ", " ").strip()

    @property
    def middle(self) -> float:
        """The size they stand about [SI]."""
        return statistics.median(estimate.value for instance in self.estimates for estimate in instance)


def stem_of(item: str) -> str:
    """What is left of an item's name without its number: "exhaust" of "exhaust 3"."""
    return " ".join(re.sub(r"\d+", " ", item).split()).lower()


def groups_of(estimates: Mapping[FeatureKey, Sequence[Estimate]], features: Mapping[FeatureKey, Feature]) -> list[Group]:
    """Groups of siblings among all features of one dimension."""
    sorts: dict[tuple[str, str, str], list[FeatureKey]] = {}
    for key in estimates:
        name = stem_of(key.item) if features[key].family not in ALONE else key.item
        sorts.setdefault((key.part, name, key.feature), []).append(key)
    found = []
    for sort, keys in sorts.items():
        dimensions = {estimates[key][0].dimension for key in keys}
        for dimension in sorted(dimensions):
            same = [key for key in keys if estimates[key][0].dimension == dimension]
            for cluster in _clusters(same, estimates):
                found.append(
                    Group(
                        sort=sort,
                        keys=tuple(cluster),
                        estimates=tuple(tuple(estimates[key]) for key in cluster),
                        feature=features[cluster[0]],
                    )
                )
    return found


def _clusters(keys: Sequence[FeatureKey], estimates: Mapping[FeatureKey, Sequence[Estimate]]) -> list[list[FeatureKey]]:
    """Split where sorted sizes leave a gap that neither wear nor reading explains; order of the keys is kept within."""
    if len(keys) < 2 or estimates[keys[0]][0].dimension != "length":
        return [list(keys)]
    middle = {key: statistics.median(each.value for each in estimates[key]) for key in keys}
    doubt = max(max(each.uncertainty for each in estimates[key]) for key in keys)
    widest = max(APART, 6 * doubt)
    ordered = sorted(keys, key=middle.__getitem__)
    clusters = [[ordered[0]]]
    for before, after in zip(ordered, ordered[1:], strict=False):
        if middle[after] - middle[before] > widest:
            clusters.append([])
        clusters[-1].append(after)
    return [[key for key in keys if key in cluster] for cluster in clusters]
