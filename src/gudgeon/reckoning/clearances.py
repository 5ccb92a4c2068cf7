"""Gaps, clearances and plays when new. They have no drawing size: they follow from hole and shaft, or from a setting.

A running clearance only grows. When new it was at most what it is now, and at most not much more than that of the least worn of
its like; rules of practice on the subject say where it usually lay. Both are put together on a grid of sizes.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import cache

import numpy as np
from numpy.typing import NDArray

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.origin import Origin
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.specification import Specification
from gudgeon.handbook.rules import RuleRow, rules
from gudgeon.handbook.shelf import UnknownName
from gudgeon.metrology.guess import words_of
from gudgeon.reckoning.groups import Group

Array = NDArray[np.float64]
INCH = 0.0254

# subject of the rules of practice by the words of the feature
SUBJECTS: tuple[tuple[str, str], ...] = (
    (r"rod side play", "rod side play"),
    (r"crank end play|crankshaft end play|end float", "crank end play"),
    (r"backlash", "timing gear backlash"),
    (r"lash|tappet (gap|clearance)", "valve lash"),
    (r"end gap", "ring end gap"),
    (r"side clearance.*oil", "oil ring side clearance"),
    (r"side clearance|groove clearance", "ring side clearance"),
    (r"(bearing|main|crank ?pin).*(clearance|\blift\b)", "babbitt bearing clearance"),
    (r"stem.*clearance", "stem clearance"),
    (r"skirt.*clearance|piston.*clearance", "piston skirt clearance, cast iron"),
    (r"run.?out.*flywheel|flywheel.*run.?out", "flywheel run-out"),
)
WIDE = 0.6
"""Standard deviation of the logarithm of a clearance when new, about what the rules say."""
NO_RULE = 0.35
"""Share of engines whose maker followed none of the rules; there the readings alone speak."""
MOSTLY_KEPT = 0.75, 0.5
"""What of a gap was there when new: the middle, and the standard deviation of its logarithm."""
SCATTER = 0.3
"""Standard deviation of the logarithm of one instance's clearance when new about its like."""


def gap_specifications(groups: Sequence[Group], sizes: Mapping[FeatureKey, Specification]) -> dict[FeatureKey, Specification]:
    """An interval, and no nominal, for every gap."""
    found: dict[FeatureKey, Specification] = {}
    for group in groups:
        bands = _bands(group, sizes)
        for number, key in enumerate(group.keys):
            found[key] = _specification(group, number, key, bands)
    return found


@cache
def _rules_on(words: str) -> tuple[RuleRow, ...]:
    for pattern, subject in SUBJECTS:
        if re.search(pattern, words):
            try:
                return tuple(row for row in rules(subject) if row.purpose == "target" and row.dimension == "length")
            except UnknownName:
                return ()
    return ()


def _bands(group: Group, sizes: Mapping[FeatureKey, Specification]) -> tuple[tuple[float, float, str], ...]:
    """Bands of the rules at the size they go by [m], with their authorities."""
    bands = []
    for row in _rules_on(words_of(group.keys[0])):
        size = _size_for(row, sizes)
        if size is None and (row.low_per_size or row.high_per_size):
            continue
        low, high = row.at(size or 0.0)
        ends = [end for end in (low, high) if end is not None and end > 0]
        if ends:
            bands.append((min(ends), max(ends), row.authority))
    return tuple(bands)


def _size_for(row: RuleRow, sizes: Mapping[FeatureKey, Specification]) -> float | None:
    """The nominal of the job's feature that a rule goes by."""
    if not row.size_of:
        return None
    for key, each in sizes.items():
        if row.size_of in words_of(key) and each.nominal is not None:
            return each.nominal
    return None


def _specification(group: Group, number: int, key: FeatureKey, bands: Sequence[tuple[float, float, str]]) -> Specification:
    own = group.estimates[number]
    least = min(own, key=lambda each: each.value)
    siblings = [min(instance, key=lambda each: each.value) for instance in group.estimates]
    low, high = _interval(least, siblings, bands, wears=group.feature.wear == "adds")
    smallest = min(siblings, key=lambda each: each.value)
    evidence = [f"It stands at {least.value / INCH:.4f} in now, and running only opens it."]
    if len(siblings) > 1:
        evidence.append(f"The least of {len(siblings)} alike stands at {smallest.value / INCH:.4f} in.")
    evidence += [f"{who}: {low_ / INCH:.4f} to {high_ / INCH:.4f} in." for low_, high_, who in bands[:4]]
    source = "least worn of its like and rules of practice" if bands else "least worn of its like"
    return Specification(
        key=key,
        dimension="length",
        nominal=None,
        low=low,
        high=high,
        probability=0.0,
        origin=Origin("E", f"reconstructed from the {source}"),
        evidence=tuple(evidence),
        settle="A gap has no size on a drawing: it follows from the sizes of the two parts, which readings of both would give.",
    )


def _interval(
    own: Estimate, siblings: Sequence[Estimate], bands: Sequence[tuple[float, float, str]], *, wears: bool
) -> tuple[float, float]:
    """90 % interval of what one gap was when new."""
    top = max(max(each.value for each in siblings), max((high for _, high, _ in bands), default=0.0)) * 2 + 0.002 * INCH
    grid = np.linspace(1e-7, top, 800)
    density = _practice(grid, bands, own) * _at_most(grid, own)
    others = [each for each in siblings if each is not own]
    if others:
        density = density * _like(grid, min(others, key=lambda each: each.value))
    if not wears:
        density = np.exp(-0.5 * ((grid - own.value) / max(own.uncertainty, 1e-7)) ** 2)
    if density.sum() <= 0:
        return 0.0, max(own.high, 0.0)
    below = np.cumsum(density) / density.sum()
    low, high = np.interp([0.05, 0.95], below, grid)
    return float(low), float(high)


def _practice(grid: Array, bands: Sequence[tuple[float, float, str]], own: Estimate) -> Array:
    """What rules of practice lead one to expect, beside what a gap of that size now mostly was; without rules the latter."""
    middle, sigma = MOSTLY_KEPT
    alone = _even(_lognormal(grid, max(middle * own.value, 0.0003 * INCH), sigma))
    if not bands:
        return alone
    total = np.zeros_like(grid)
    for low, high, _ in bands:
        total += _even(_lognormal(grid, float(np.sqrt(low * high)), float(np.hypot(WIDE, np.log(high / low) / 3.3))))
    return (1 - NO_RULE) * total / len(bands) + NO_RULE * alone


def _even(density: Array) -> Array:
    """The density on the grid with a sum of 1."""
    scaled: Array = density / max(float(density.sum()), 1e-300)
    return scaled


def _lognormal(grid: Array, middle: float, sigma: float) -> Array:
    curve: Array = np.exp(-0.5 * (np.log(grid / middle) / sigma) ** 2) / grid
    return curve


def _at_most(grid: Array, estimate: Estimate) -> Array:
    """Chance that the reading came out no smaller than it did, were the gap so wide when new."""
    from scipy.special import ndtr

    chance: Array = ndtr((estimate.value - grid) / max(estimate.uncertainty, 1e-7))
    return chance


def _like(grid: Array, sibling: Estimate) -> Array:
    """The same from the least worn of its like, whose gap when new was alike but for the scatter of making."""
    from scipy.special import ndtr

    above = np.log(grid / max(sibling.value + 0.5 * sibling.uncertainty, 1e-7))
    chance: Array = ndtr(-above / np.hypot(SCATTER, sibling.uncertainty / max(sibling.value, 1e-6)))
    return 0.2 + 0.8 * chance
