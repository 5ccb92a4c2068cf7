"""The engine's own manual: for every feature of every instance, what it was when new, from everything that was read.

Sizes with a standard behind them go through the sum over siblings (``siblings``), are then held against their mates, against
like groups and against the plate (``mates``), and are summed once more. Gaps and clearances have no drawing size and are
bounded (``clearances``); threads, gears, timing and volumes follow from relations (``related``).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.outline import Outline
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.reading import Reading
from gudgeon.engine.specification import Specification
from gudgeon.engine.system import Feature, System
from gudgeon.metrology import Weighed
from gudgeon.metrology.guess import wear_place
from gudgeon.reckoning.clearances import gap_specifications
from gudgeon.reckoning.groups import Group, groups_of
from gudgeon.reckoning.habits import lattice_family, resizing, spread_of, wear_of
from gudgeon.reckoning.lattice import THOU, Lattice, lattice
from gudgeon.reckoning.mates import Pair, for_hole, for_like, for_plate, for_shaft
from gudgeon.reckoning.others import other_specifications
from gudgeon.reckoning.pairs import pairs_of
from gudgeon.reckoning.related import related_specifications
from gudgeon.reckoning.siblings import Groundwork, Outside, Reconstructed, Resizing, Siblings, groundwork, reconstruct
from gudgeon.reckoning.told import told
from gudgeon.reckoning.wear import Spot

Array = NDArray[np.float64]

FORM = 0.25
"""Share of the spread of manufacture that a single diameter may stand off its instance's mean size."""


@dataclass(frozen=True, kw_only=True)
class Solved:
    """One group's sums, kept so that a next reckoning need not do them again."""

    siblings: Siblings
    work: Groundwork
    sizes: Lattice
    resizing: Resizing
    alone: Reconstructed
    outside: Outside | None = None
    answer: Reconstructed | None = None


@dataclass(frozen=True, kw_only=True)
class Manual:
    """All specifications, and the densities that draws of the sizes when new are made from."""

    specifications: Mapping[FeatureKey, Specification]
    groups: Mapping[FeatureKey, tuple[Group, Reconstructed, int]]
    solved: Mapping[tuple[FeatureKey, ...], Solved] = field(default_factory=dict)


def reconstruct_manual(
    weighed: Weighed,
    *,
    outline: Outline,
    systems: Sequence[System],
    readings: Mapping[FeatureKey, Sequence[Reading]],
    before: Manual | None = None,
) -> Manual:
    """Reconstruct every feature that was read.

    ``before`` is the manual of an earlier snapshot: groups whose evidence is the same are taken over from it.
    """
    groups = groups_of(weighed.estimates, weighed.features)
    sized = [group for group in groups if _has_size(group)]
    kept = before.solved if before else {}
    solved = {group.keys: _alone(group, readings, kept.get(group.keys), weighed) for group in sized}
    pairs = pairs_of(weighed.features, systems)
    solved = {group.keys: _together(group, sized, solved, pairs, outline, kept.get(group.keys)) for group in sized}
    specifications: dict[FeatureKey, Specification] = {}
    homes: dict[FeatureKey, tuple[Group, Reconstructed, int]] = {}
    for group in sized:
        state = solved[group.keys]
        assert state.answer is not None
        for number, key in enumerate(group.keys):
            homes[key] = (group, state.answer, number)
        specifications.update(told(group, state.answer, outline=outline, readings=readings, pairs=pairs, homes=solved))
    rest = [group for group in groups if not _has_size(group)]
    specifications.update(gap_specifications([group for group in rest if group.feature.family == "gap"], specifications))
    specifications.update(other_specifications([group for group in rest if group.feature.family != "gap"], readings))
    specifications.update(related_specifications(weighed, outline=outline, specifications=specifications, readings=readings))
    ordered = {key: specifications[key] for key in weighed.estimates if key in specifications}
    return Manual(specifications=ordered, groups=homes, solved=solved)


def _has_size(group: Group) -> bool:
    return group.estimates[0][0].dimension == "length" and group.feature.family not in ("gap", "thread")


def siblings_of(group: Group, notes: Mapping[FeatureKey, Sequence[Reading]], trust: Mapping[str, float]) -> Siblings:
    """The evidence of a group, in the direction in which wear adds."""
    feature = group.feature
    sign = -1 if feature.wear == "takes" else 1
    spread = spread_of(feature, group.middle)
    weights: dict[str, float] = {}
    shared: dict[str, float] = {}
    for instance in group.estimates:
        for each in instance:
            weights[each.gauge] = weights.get(each.gauge, 0.0) + 1 / max(each.uncertainty, 1e-9) ** 2
            shared[each.gauge] = each.shared
    chief = max(weights, key=weights.__getitem__)
    instances = tuple(
        tuple(_spot(each, feature, sign, spread, chief, notes.get(key, ()), trust) for each in instance)
        for key, instance in zip(group.keys, group.estimates, strict=True)
    )
    return Siblings(
        instances=instances,
        sign=sign,
        offset=shared[chief],
        spread=spread,
        usual_wear=max(wear_of(feature, group.middle), 2e-6),
    )


def _spot(
    estimate: Estimate,
    feature: Feature,
    sign: int,
    spread: float,
    chief: str,
    readings: Sequence[Reading],
    trust: Mapping[str, float],
) -> Spot:
    own = estimate.own if estimate.gauge == chief else estimate.uncertainty
    note = next((reading.note for reading in readings if reading.place == estimate.place and reading.note), "")
    place = feature.wear if feature.wear in ("none", "either") else wear_place(feature, estimate.place, note)
    uncertainty = float(np.hypot(own, FORM * spread))
    # one of eleven widths a decade is as good as the width itself and lets spots share their curves
    rounded = 10 ** (round(np.log10(uncertainty) * 11) / 11)
    return Spot(
        size=sign * estimate.value,
        uncertainty=rounded,
        place=place,
        trust=min((trust.get(name, 1.0) for name in estimate.readings), default=1.0),
    )


def _alone(group: Group, readings: Mapping[FeatureKey, Sequence[Reading]], kept: Solved | None, weighed: Weighed) -> Solved:
    trust = {doubt.reading.id: 0.9 for doubt in weighed.doubts}
    siblings = siblings_of(group, readings, trust)
    if kept is not None and kept.siblings == siblings:
        return kept
    work = groundwork(siblings)
    ends = sorted((siblings.sign * work.grid[0], siblings.sign * work.grid[-1]))
    family = lattice_family(group.feature)
    ways = resizing(group.feature.family, bool(group.feature.rework))
    beyond = int(max(ways.amounts, default=0.0) / THOU) + 2
    before, after = (beyond, 1) if siblings.sign > 0 else (1, beyond)
    sizes = lattice(family, int(ends[0] / THOU) - before, int(ends[1] / THOU) + after)
    return Solved(siblings=siblings, work=work, sizes=sizes, resizing=ways, alone=reconstruct(work, sizes, ways))


def _together(
    group: Group,
    every: Sequence[Group],
    solved: Mapping[tuple[FeatureKey, ...], Solved],
    pairs: Sequence[Pair],
    outline: Outline,
    kept: Solved | None,
) -> Solved:
    """The group's sum once more, with what its mates, its like and the plate say."""
    state = solved[group.keys]
    outside = _outside(group, every, solved, pairs, outline)
    if outside is None:
        return replace(state, outside=None, answer=state.alone)
    if kept is not None and kept.work is state.work and kept.outside is not None and _same(kept.outside, outside):
        return kept
    return replace(state, outside=outside, answer=reconstruct(state.work, state.sizes, state.resizing, outside=outside))


def _same(one: Outside, other: Outside) -> bool:
    pairs = ((one.on_nominal, other.on_nominal), (one.at, other.at), (one.on_set, other.on_set))
    return all((a is None and b is None) or (a is not None and b is not None and np.array_equal(a, b)) for a, b in pairs)


def _outside(
    group: Group,
    every: Sequence[Group],
    solved: Mapping[tuple[FeatureKey, ...], Solved],
    pairs: Sequence[Pair],
    outline: Outline,
) -> Outside | None:
    state = solved[group.keys]
    on_nominal: list[Array] = []
    on_set: list[Array] = []
    at = _set_sizes(state)
    keys = set(group.keys)
    for other in every:
        if other.keys == group.keys:
            continue
        alone = solved[other.keys].alone
        theirs = set(other.keys)
        as_hole = next((pair for pair in pairs if pair.hole in keys and pair.shaft in theirs), None)
        as_shaft = next((pair for pair in pairs if pair.shaft in keys and pair.hole in theirs), None)
        if as_hole is not None:
            on_set.append(for_hole(at, alone, as_hole.habit))
        if as_shaft is not None:
            on_set.append(for_shaft(at, alone, as_shaft.habit))
        if _like(group, other):
            on_nominal.append(for_like(state.sizes, alone))
    if group.feature.family == "bore" and outline.bore:
        on_nominal.append(for_plate(state.sizes, outline.bore))
    if not on_nominal and not on_set:
        return None
    return Outside(on_nominal=_product(on_nominal), at=at if on_set else None, on_set=_product(on_set))


def _set_sizes(state: Solved) -> Array:
    """Evenly spaced sizes over the group's grid, a quarter of a thousandth apart, true sign and rising."""
    ends = sorted(state.siblings.sign * state.work.grid[[0, -1]])
    return np.linspace(ends[0], ends[1], int((ends[1] - ends[0]) / (0.25 * THOU)) + 2)


def _product(factors: Sequence[Array]) -> Array | None:
    if not factors:
        return None
    product: Array = np.prod(np.stack(factors), axis=0)
    return product / product.max()


def _like(group: Group, other: Group) -> bool:
    """Same part and feature, of another name (intake and exhaust) or standing apart in size."""
    same = group.sort[0] == other.sort[0] and group.sort[2] == other.sort[2]
    return (
        same and group.feature.family not in ("gear", "thread", "length") and abs(group.middle - other.middle) < 0.13 * 0.0254
    )
