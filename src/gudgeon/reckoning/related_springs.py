"""Manual lines of springs: the force at a length when new, from the force now and what the spring has set."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence

import numpy as np

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.origin import Origin
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.specification import Specification
from gudgeon.quantity.draws import generator
from gudgeon.reckoning.relations_volumes import spring_force_when_new

_AT = re.compile(r"force at ([\d.]+)\s*(in|mm)?")
COUNT = 4000


def spring_specifications(
    estimates: Mapping[FeatureKey, Sequence[Estimate]], sizes: Mapping[FeatureKey, Specification]
) -> dict[FeatureKey, Specification]:
    """A line for each force whose spring's free length was read and reconstructed."""
    found = {}
    for key, spots in estimates.items():
        at = _AT.search(key.feature.lower())
        if at is None or spots[0].dimension != "force":
            continue
        free_key = FeatureKey(key.part, key.item, "free length")
        free, new = estimates.get(free_key), sizes.get(free_key)
        if free and new is not None and new.low is not None and new.high is not None:
            length = float(at.group(1)) * (1e-3 if at.group(2) == "mm" else 0.0254)
            line = _line(key, spots[0], free[0], (new.low, new.high), length)
            if line is not None:
                found[key] = line
    return found


def _line(key: FeatureKey, force: Estimate, free: Estimate, new: tuple[float, float], length: float) -> Specification | None:
    if free.value - length < 4 * free.uncertainty or new[0] <= length:
        return None
    chance = generator("spring", key.part, key.item, key.feature)
    now = free.value + free.uncertainty * chance.standard_normal(COUNT)
    middle, sigma = (new[0] + new[1]) / 2, (new[1] - new[0]) / (2 * 1.645)
    when_new = np.maximum(middle + sigma * chance.standard_normal(COUNT), now)
    read = force.value + force.uncertainty * chance.standard_normal(COUNT)
    draws = spring_force_when_new(force=read, length=length, free_now=now, free_new=when_new)
    low, high = np.quantile(draws, [0.05, 0.95])
    rate = force.value / (free.value - length)
    return Specification(
        key=key,
        dimension="force",
        nominal=None,
        low=float(low),
        high=float(high),
        probability=0.0,
        origin=Origin("E", "force now, scaled by what the spring has set; the rate of a spring that has only set is unchanged"),
        evidence=(
            f"Its rate is about {rate / 175.126835:.0f} lb per inch now.",
            "A drawing called for a band of force at a length, which no one spring tells.",
        ),
        settle="Read wire, coils and outside diameter: they give the rate when new without the force."
        if math.isfinite(rate)
        else "",
    )
