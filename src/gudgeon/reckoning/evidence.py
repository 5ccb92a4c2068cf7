"""A group's estimates as evidence on its size when new."""

from __future__ import annotations

import math

from gudgeon.engine.estimate import Estimate
from gudgeon.reckoning.groups import Group
from gudgeon.reckoning.habits import spread_of, wear_of
from gudgeon.reckoning.siblings import Siblings
from gudgeon.reckoning.wear import Spot

FORM = 0.25
"""Share of the spread of manufacture that a single diameter may stand off its instance's mean size."""
DOUBTED = 0.9
"""Trust in the size put in the place of a probable slip."""
WIDTHS_A_DECADE = 7
"""Uncertainties are rounded to so many steps a decade, which is as good as the figure itself and lets spots share curves."""
LEAST_WEAR = 2e-6


def siblings_of(group: Group, doubted: frozenset[str]) -> Siblings:
    """The evidence of a group, in the direction in which wear adds; ``doubted`` are the readings that were probably slips.

    Of several gauges, the offset of the one that says most is the shared one; the others' count as their spots' own.
    """
    feature, middle = group.feature, group.middle
    sign = -1 if feature.wear == "takes" else 1
    spread = spread_of(feature, middle)
    chief, shared = chief_gauge(tuple(each for instance in group.estimates for each in instance))
    instances = tuple(
        tuple(
            _spot(each, place, sign=sign, spread=spread, chief=chief, doubted=doubted)
            for each, place in zip(spots, places, strict=True)
        )
        for spots, places in zip(group.estimates, group.places, strict=True)
    )
    wear = max(wear_of(feature, middle), LEAST_WEAR)
    return Siblings(instances=instances, sign=sign, offset=shared, spread=spread, usual_wear=wear)


def chief_gauge(estimates: tuple[Estimate, ...]) -> tuple[str, float]:
    """The gauge that says most of them, and the doubt of its offset [m]."""
    weights: dict[str, float] = {}
    shared: dict[str, float] = {}
    for each in estimates:
        weights[each.gauge] = weights.get(each.gauge, 0.0) + 1 / max(each.uncertainty, 1e-9) ** 2
        shared[each.gauge] = each.shared
    chief = max(weights, key=weights.__getitem__)
    return chief, shared[chief]


def _spot(estimate: Estimate, place: str, *, sign: int, spread: float, chief: str, doubted: frozenset[str]) -> Spot:
    own = estimate.own if estimate.gauge == chief else estimate.uncertainty
    width = math.log10(math.hypot(own, FORM * spread))
    return Spot(
        size=sign * estimate.value,
        uncertainty=10 ** (round(width * WIDTHS_A_DECADE) / WIDTHS_A_DECADE),
        place=place,
        trust=DOUBTED if not doubted.isdisjoint(estimate.readings) else 1.0,
    )
