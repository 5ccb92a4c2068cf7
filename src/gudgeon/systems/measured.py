"""What a system reads off the bench: sizes by feature and level with their draws, words, sizes when new, even draws.

Shared by systems; it knows none of them.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from gudgeon.engine.bench import Bench
from gudgeon.engine.estimate import Estimate
from gudgeon.engine.levels import level_of_estimate
from gudgeon.engine.naming import plain_words, size_in_name
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.system import Feature

Draws = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Measured:
    """One size as read: its draws [SI], best estimate [SI], the readings behind it, and their estimates."""

    draws: Draws
    value: float
    inputs: tuple[str, ...]
    estimates: tuple[Estimate, ...]


def number(item: str) -> str:
    """The number in an instance's name ("exhaust 2" is 2); the whole name where it has none."""
    found = re.search(r"\d+", item)
    return found.group() if found else item.lower()


@dataclass(frozen=True, kw_only=True)
class Reader:
    """Looks sizes up on a bench, by whichever of a feature's names the owner used."""

    bench: Bench
    kept: dict[str, Draws] = field(default_factory=dict, repr=False)

    @cached_property
    def _names(self) -> Mapping[tuple[str, str], Mapping[str, FeatureKey]]:
        """Keys of what was read, by part and instance, then by plain name."""
        index: dict[tuple[str, str], dict[str, FeatureKey]] = {}
        for key in (*self.bench.snapshot.by_feature, *self.bench.estimates, *self.bench.returned, *self.bench.fitted):
            index.setdefault((plain_words(key.part), key.item), {}).setdefault(plain_words(key.feature), key)
        return index

    def key(self, feature: Feature, item: str) -> FeatureKey:
        """The key under which a feature of an instance was read; its own name where it was not."""
        names = self._names.get((plain_words(feature.part), item), {})
        for word in (feature.name, *feature.aliases):
            if plain_words(word) in names:
                return names[plain_words(word)]
        return FeatureKey(feature.part, item, feature.name)

    def spots(self, feature: Feature, item: str, *, stage: str = "found") -> tuple[Estimate, ...]:
        """Estimates of a feature, one per spot."""
        where = {"found": self.bench.estimates, "returned": self.bench.returned, "fitted": self.bench.fitted}[stage]
        return tuple(where.get(self.key(feature, item), ()))

    def of(self, estimates: Sequence[Estimate]) -> Measured | None:
        """Some spots as one size, their mean; None where there are none."""
        if not estimates:
            return None
        return Measured(
            draws=self._mean(estimates),
            value=float(np.mean([each.value for each in estimates])),
            inputs=tuple(dict.fromkeys(identity for each in estimates for identity in each.readings)),
            estimates=tuple(estimates),
        )

    def _mean(self, estimates: Sequence[Estimate]) -> Draws:
        if len(estimates) == 1:
            return self.bench.spot(estimates[0])
        return np.asarray(np.mean([self.bench.spot(each) for each in estimates], axis=0))

    def size(self, feature: Feature, item: str, *, stage: str = "found") -> Measured | None:
        """A feature as one size, the mean of its spots."""
        return self.of(self.spots(feature, item, stage=stage))

    def largest(self, feature: Feature, item: str) -> Measured | None:
        """The largest spot of a feature."""
        return self.of(sorted(self.spots(feature, item), key=lambda each: -each.value)[:1])

    def smallest(self, feature: Feature, item: str) -> Measured | None:
        """The smallest spot of a feature."""
        return self.of(sorted(self.spots(feature, item), key=lambda each: each.value)[:1])

    def level(self, feature: Feature, item: str, *names: str, stage: str = "found") -> Measured | None:
        """A feature at one of its levels, the mean of the spots there."""
        readings = self.bench.snapshot.readings_of(self.key(feature, item))
        at = [
            each
            for each in self.spots(feature, item, stage=stage)
            if (found := level_of_estimate(feature, each, readings)) is not None and found.name in names
        ]
        return self.of(at)

    def at_sizes(self, feature: Feature, item: str) -> tuple[tuple[float, str, Measured], ...]:
        """A sized feature: figure and unit in each name ("force at 2.25 in"), and what was read there, by rising figure."""
        found = []
        for name, key in self._names.get((plain_words(feature.part), item), {}).items():
            split = size_in_name(name)
            if split is None or split[0] not in (feature.name, *feature.aliases):
                continue
            read = self.of(tuple(self.bench.estimates.get(key, ())))
            if read is not None:
                found.append((split[1], split[2], read))
        return tuple(sorted(found, key=lambda each: each[0]))

    def words(self, feature: Feature, item: str) -> tuple[str, tuple[str, ...]]:
        """What was noted in words, and the readings; empty where nothing was."""
        readings = self.bench.snapshot.readings_of(self.key(feature, item))
        texts = [reading.understood.words or reading.typed for reading in readings]
        return "; ".join(dict.fromkeys(texts)), tuple(reading.id for reading in readings)

    def original(self, feature: Feature, item: str) -> Draws | None:
        """Draws of what a feature measured when new or last re-sized [SI]."""
        return self.bench.original(self.key(feature, item))

    def nominal(self, feature: Feature, item: str) -> float | None:
        """The size that the drawing must have called for [SI]."""
        known = self.bench.specification(*_parts(self.key(feature, item)))
        return known.nominal if known is not None else None

    def even(self, name: str, low: float, high: float) -> Draws:
        """Draws spread evenly between two ends, under a name of the bench."""
        if name not in self.kept:
            from scipy.special import ndtr

            self.kept[name] = np.asarray(ndtr(self.bench.named(name)))
        return np.asarray(low + (high - low) * self.kept[name])

    def full(self, value: float) -> Draws:
        """The same value in every draw."""
        return np.full(self.bench.count, value)


def _parts(key: FeatureKey) -> tuple[str, str, str]:
    return key.part, key.item, key.feature
