"""What a reading's neighbours lead one to expect of it: repeats at the spot, other spots of the instance, the siblings.

Each neighbourhood gives an expectation and a spread; the sharpest one that has enough neighbours is believed. Spreads are robust
(median absolute deviation) and never less than the gauge can tell apart, so that wear and oval bores are not taken for slips.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from gudgeon.engine.place import FeatureKey

Array = NDArray[np.float64]

MAD_TO_SIGMA = 1.4826
REPEATS = "the repeats at the same spot"


@dataclass(frozen=True, slots=True)
class Item:
    """One reading for this purpose: where it stands and what it says [SI]."""

    key: FeatureKey
    level: tuple[str, float | None]
    direction: float | None
    value: float


@dataclass(frozen=True, slots=True)
class Expected:
    """What the neighbours expect [SI], how far off an honest reading may be (one standard deviation), how many there are, who."""

    value: float
    spread: float
    count: int
    who: str


def expectations(items: Sequence[Item], *, floor: float, only: int | None = None) -> list[Expected | None]:
    """For each of the readings of one sort of feature, what all the others lead one to expect; None for too few neighbours.

    ``floor`` is the smallest difference that means anything [SI]: gauge and hand together. ``only`` asks for one of them.

    A reading is predicted from the others alone: level and direction effects by median polish (Tukey, *Exploratory Data
    Analysis*, 1977, ch. 11) over the instances, without the reading itself.
    """
    groups: dict[FeatureKey, list[int]] = {}
    for number, item in enumerate(items):
        groups.setdefault(item.key, []).append(number)
    values = np.array([item.value for item in items])
    numbers = range(len(items)) if only is None else (only,)
    return [_expected(number, items, values, groups, floor) for number in numbers]


def _expected(
    number: int, items: Sequence[Item], values: Array, groups: Mapping[FeatureKey, list[int]], floor: float
) -> Expected | None:
    item = items[number]
    own = [other for other in groups[item.key] if other != number]
    repeats = [other for other in own if items[other].level == item.level and items[other].direction == item.direction]
    found = [
        _repeats(values[repeats], floor),
        _within(number, own, items, values, floor),
        _siblings(number, items, values, groups, floor),
    ]
    usable = [each for each in found if each is not None]
    return min(usable, key=lambda each: each.spread) if usable else None


def _repeats(values: Array, floor: float) -> Expected | None:
    if values.size < 2:
        return None
    return Expected(float(np.median(values)), max(_sigma(values), 2.0 * floor), values.size, REPEATS)


def _within(number: int, own: Sequence[int], items: Sequence[Item], values: Array, floor: float) -> Expected | None:
    """From the other spots of the same instance: its level's and its direction's usual departure."""
    if len(own) < 3:
        return None
    item = items[number]
    level = [other for other in own if items[other].level == item.level]
    direction = [other for other in own if items[other].direction == item.direction and item.direction is not None]
    middle = float(np.median(values[list(own)]))
    effects = [float(np.median(values[group])) - middle for group in (level, direction) if group]
    predicted = middle + sum(effects) if len(level) > 1 else middle
    spread = max(_sigma(values[list(own)]), 2.5 * floor)
    return Expected(predicted, spread, len(own), "the other spots of the same part")


def _siblings(
    number: int, items: Sequence[Item], values: Array, groups: Mapping[FeatureKey, list[int]], floor: float
) -> Expected | None:
    """From the same spot on the siblings, each taken from its own instance's middle."""
    item = items[number]
    own = [other for other in groups[item.key] if other != number]
    departures, middles = [], []
    for key, members in groups.items():
        if key == item.key:
            continue
        middle = float(np.median(values[members]))
        same = [other for other in members if items[other].level == item.level and items[other].direction == item.direction]
        middles.append(middle)
        if same:
            departures.append(float(np.median(values[same])) - middle)
    if len(own) >= 2 and len(departures) >= 2:
        spots = np.array(departures)
        wide = 0.35 * float(np.ptp(values[own]))
        spread = max(_sigma(spots) * np.sqrt(1 + 1 / spots.size), 2.5 * floor, wide)
        return Expected(
            float(np.median(values[own])) + float(np.median(spots)), spread, spots.size, "the same spot on its siblings"
        )
    if len(middles) >= 2:
        every = np.array(middles)
        return Expected(float(np.median(every)), max(_sigma(every), 4.0 * floor), every.size, "its siblings")
    return None


def _sigma(values: Array) -> float:
    """Robust standard deviation; for fewer than three values the half range."""
    if values.size < 3:
        return float(np.ptp(values)) / 2
    return max(float(MAD_TO_SIGMA * np.median(np.abs(values - np.median(values)))), 0.3 * float(np.std(values)))
