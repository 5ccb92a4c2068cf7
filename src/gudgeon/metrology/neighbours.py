"""What a reading's neighbours lead one to expect of it: repeats at the spot, other spots of the instance, the siblings.

Each neighbourhood gives an expectation and a spread; the sharpest one that has enough neighbours is believed. Spreads are
robust (median absolute deviation) and never less than the gauge can tell apart, so that wear and oval bores are not taken
for slips.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gudgeon.engine.place import FeatureKey

MAD_TO_SIGMA = 1.4826
REPEATS = "the repeats at the same spot"
SIBLINGS = "its siblings"


@dataclass(frozen=True, slots=True)
class Item:
    """One reading for this purpose: where it stands and what it says [SI]."""

    key: FeatureKey
    level: tuple[str, float | None]
    direction: float | None
    value: float


@dataclass(frozen=True, slots=True)
class Expected:
    """What the neighbours expect [SI], how far off an honest reading may be (standard deviation), how many they are, who."""

    value: float
    spread: float
    count: int
    who: str


def expectations(
    items: Sequence[Item], *, floor: float, only: Sequence[int] | None = None, alike: bool = True
) -> list[Expected | None]:
    """For each of the readings of one sort of feature, what all the others lead one to expect; None for too few neighbours.

    ``floor`` is the smallest difference that means anything [SI]: gauge and hand together. ``only`` asks for some of them.
    Instances that are not ``alike`` (threads, gears) tell nothing of each other.

    A reading is predicted from the others alone: level and direction effects by median polish (Tukey, *Exploratory Data
    Analysis*, 1977, ch. 11) over the instances, without the reading itself.
    """
    groups: dict[FeatureKey, list[int]] = {}
    for number, item in enumerate(items):
        groups.setdefault(item.key, []).append(number)
    values = [item.value for item in items]
    numbers = range(len(items)) if only is None else only
    return [
        _expected(number, items, values, groups if alike else {items[number].key: groups[items[number].key]}, floor)
        for number in numbers
    ]


def _expected(
    number: int, items: Sequence[Item], values: Sequence[float], groups: Mapping[FeatureKey, list[int]], floor: float
) -> Expected | None:
    item = items[number]
    own = [other for other in groups[item.key] if other != number]
    repeats = [other for other in own if items[other].level == item.level and items[other].direction == item.direction]
    found = [
        _repeats(_pick(values, repeats), floor),
        _level(number, own, items, values, floor),
        _within(number, own, items, values, floor),
        _siblings(number, items, values, groups, floor),
    ]
    usable = [each for each in found if each is not None]
    return min(usable, key=lambda each: each.spread) if usable else None


def _pick(values: Sequence[float], numbers: Sequence[int]) -> list[float]:
    return [values[number] for number in numbers]


def _median(values: Sequence[float]) -> float:
    ordered = sorted(values)
    half = len(ordered) // 2
    return ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2


def _repeats(values: Sequence[float], floor: float) -> Expected | None:
    if len(values) < 2:
        return None
    return Expected(_median(values), max(_sigma(values), 2.0 * floor), len(values), REPEATS)


def _level(number: int, own: Sequence[int], items: Sequence[Item], values: Sequence[float], floor: float) -> Expected | None:
    """From the other directions at the same level, where there are at least two: an oval hole spreads them, a slip does not."""
    item = items[number]
    level = [other for other in own if items[other].level == item.level]
    directions = {items[other].direction for other in level} - {item.direction, None}
    if len(level) < 3 or len(directions) < 2:
        return None
    there = _pick(values, level)
    spread = max((max(there) - min(there)) / 2, 2.5 * floor)
    return Expected(_median(there), spread, len(level), "the other directions at the same level")


def _within(number: int, own: Sequence[int], items: Sequence[Item], values: Sequence[float], floor: float) -> Expected | None:
    """From the other spots of the same instance: its level's and its direction's usual departure."""
    if len(own) < 3:
        return None
    item = items[number]
    level = [other for other in own if items[other].level == item.level]
    direction = [other for other in own if items[other].direction == item.direction and item.direction is not None]
    middle = _median(_pick(values, own))
    effects = [_median(_pick(values, group)) - middle for group in (level, direction) if group]
    predicted = middle + sum(effects) if len(level) > 1 else middle
    spread = max(_sigma(_pick(values, own)), 2.5 * floor) * _few(len(own))
    return Expected(predicted, spread, len(own), "the other spots of the same part")


def _siblings(
    number: int, items: Sequence[Item], values: Sequence[float], groups: Mapping[FeatureKey, list[int]], floor: float
) -> Expected | None:
    """From the same spot on the siblings, each taken from its own instance's middle."""
    item = items[number]
    own = [other for other in groups[item.key] if other != number]
    departures, middles = [], []
    for key, members in groups.items():
        if key == item.key:
            continue
        middle = _median(_pick(values, members))
        same = [other for other in members if items[other].level == item.level and items[other].direction == item.direction]
        middles.append(middle)
        if same:
            departures.append(_median(_pick(values, same)) - middle)
    if len(own) >= 2 and len(departures) >= 2:
        mine = _pick(values, own)
        wide = 0.35 * (max(mine) - min(mine))
        spread = max(_sigma(departures) * math.sqrt(1 + 1 / len(departures)), 2.5 * floor, wide) * _few(len(departures))
        return Expected(_median(mine) + _median(departures), spread, len(departures), "the same spot on its siblings")
    if len(middles) >= 2:
        return Expected(_median(middles), max(_sigma(middles), 4.0 * floor), len(middles), SIBLINGS)
    return None


def _few(count: int) -> float:
    """A spread from few neighbours is itself doubtful, and more often too small than too large."""
    return 1 + 1 / count


def _sigma(values: Sequence[float]) -> float:
    """Robust standard deviation; for fewer than three values the half range."""
    if len(values) < 3:
        return (max(values) - min(values)) / 2
    middle = _median(values)
    mean = math.fsum(values) / len(values)
    plain = math.sqrt(math.fsum((each - mean) ** 2 for each in values) / len(values))
    return max(MAD_TO_SIGMA * _median([abs(each - middle) for each in values]), 0.3 * plain)
